// Opens a job, a cart or a kit from disk and has it assessed: what every face of the tool begins with.
#pragma once

#include <memory>
#include <string>

#include "assess/assessment.h"
#include "assess/survey_report.h"
#include "jobfile/load.h"

namespace trammel {

struct OpenedJob {
  Loaded<Job> file;
  std::unique_ptr<Assessment> assessment;  // where the file could be read
};

OpenedJob open_and_assess(const std::string& path);

// A job, or a kit alone: a job of that one kit on a cart that is not known.
Loaded<Job> read_kit_or_job(const std::string& path);
OpenedJob open_kit_or_job(const std::string& path);

struct OpenedSurvey {
  Loaded<SurveyFile> file;
  std::optional<SurveyReport> report;  // where the file could be read
};
OpenedSurvey open_survey(const std::string& path);

// The cart of a job with its kits on it (or as it was), or a cart file alone.
Loaded<Cart> open_cart(const std::string& path, bool before_the_kits);

// A folder's or file's name without its end: what its sheets are named by.
std::string short_name(const std::string& path);

// Writes a file whole or not at all. Empty where it went well, else what the system says.
std::string write_file(const std::string& path, const std::string& bytes);

}  // namespace trammel
