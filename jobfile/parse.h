// Bytes to a tree: UTF-8, then TOML 1.0. One fault stops it, with its place.
#pragma once

#include <optional>
#include <string>

#include "jobfile/report.h"
#include "jobfile/tree.h"

namespace trammel {

// Opens the text in the report and reads it; nothing where it is not UTF-8 or not TOML.
std::optional<Node> parse(const std::string& path, std::string text, Report& report);

}  // namespace trammel
