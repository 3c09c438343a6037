// Where the things that a fault of the work names stand in the kits' files. Private to assess.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "job/job.h"
#include "work/fault.h"

namespace trammel {

class KitPlaces {
 public:
  explicit KitPlaces(const Job& job);
  // Of the word itself where a list names what is not there, else of the step, fastener, proof or part; empty where
  // none of them is in a file.
  Place of(const work::Fault& fault) const;

 private:
  std::map<std::string, Place> steps_, fasteners_, parts_;
  std::map<std::string, Place> proofs_;                        // where each is last made
  std::map<std::string, std::vector<const Text*>> listed_by_;  // "step rear-up, fits" (work/structure.cpp)
};

}  // namespace trammel
