// The example jobs, read from their files, for tests that change them.
#pragma once

#include <string>

#include "assess/assess.h"
#include "job/job.h"

namespace trammel::test {

Job shuttle();                         // examples/shuttle/job.toml
Job cheaper_shuttle();                 // examples/shuttle/cheaper-job.toml
Job load_cart();                       // examples/load-cart/job.toml
Job example(const std::string& name);  // "shuttle/finished-job.toml"

const LoadCaseResult& load_case(const Assessment& a, const std::string& name);
// Findings of one code, in their order.
std::vector<Finding> of_code(const Assessment& a, const std::string& code);
// The gravest outcome of a code: met where there is none.
Outcome worst(const Assessment& a, const std::string& code);
// Every finding with its numbers, as text: equal texts, equal assessments.
std::string text_of(const Assessment& a);

}  // namespace trammel::test
