// TOML text to cart, kit, job or survey, with every fault of meaning in one run.
//
// A path may be a folder, which then holds job.toml (cart.toml, kit.toml, survey.toml). Files that a file names lie
// below its own folder; neither `..`, an absolute path nor a link leads out of it. A value without a
// basis of its own takes the `basis` of its cart's or job's file, kit for kits, measured for readings, else assumed.
//
// Law 1: a value comes back only where there is no diagnostic.
// Law 2: any bytes give a value or a diagnostic, never a crash.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "job/survey.h"
#include "jobfile/diagnostic.h"
#include "jobfile/files.h"

namespace trammel {

template <class T>
struct Loaded {
  std::optional<T> value;
  std::vector<Diagnostic> diagnostics;  // by file in the order they were opened, then by place
};

Loaded<Cart> load_cart(Files& files, const std::string& path);

// A kit alone: its changes are checked for paths that some cart has.
Loaded<Kit> load_kit(Files& files, const std::string& path);

// The job with its cart and kits; each kit's changes are checked on the cart as the kits before leave it.
Loaded<Job> load_job(Files& files, const std::string& path);

// Tape distances between points; measured where a value does not say.
Loaded<SurveyFile> load_survey(Files& files, const std::string& path);

// Which of the four a file says it is by its `format`: "cart", "kit", "job", "survey"; empty where it does not say.
// For commands that take either; a folder is a job.
std::string file_kind(Files& files, const std::string& path);

}  // namespace trammel
