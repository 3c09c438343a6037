// JSON Schema (draft 2020-12) of each file, made from the same description that the reader follows.
#pragma once

#include <string>

namespace trammel {

std::string cart_schema();
std::string kit_schema();
std::string job_schema();
std::string survey_schema();

}  // namespace trammel
