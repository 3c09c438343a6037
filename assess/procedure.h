// The steps, fasteners and parts of a job's kits as one procedure for the work room.
#pragma once

#include <vector>

#include "assess/finding.h"
#include "job/job.h"
#include "work/procedure.h"

namespace trammel {

struct JobProcedure {
  work::Procedure procedure;
  std::vector<Finding> findings;  // texts that cannot be read, kits that do not go together
};

// The kits merged in their order: each later kit's steps come in where its anchors say.
JobProcedure job_procedure(const Job& job);

}  // namespace trammel
