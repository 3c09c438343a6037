// The commands, each from what was asked to its exit status: 0 nothing stops the job, 1 a finding stops it,
// 2 bad input. What a person or a program reads goes to stdout, diagnostics to stderr.
#pragma once

#include "cli/arguments.h"

namespace trammel::cli {

int check(const Asked& asked);
int plan(const Asked& asked);
int rehearse(const Asked& asked);
int record(const Asked& asked);  // sign, torque, found, decide, measure, turned, undo
int release(const Asked& asked);
int align(const Asked& asked);
int travel(const Asked& asked);
int survey_points(const Asked& asked);
int study(const Asked& asked);
int new_kit(const Asked& asked);
int study_alignment(const Asked& asked);
int study_causes(const Asked& asked);
int fastener(const Asked& asked);
int explain(const Asked& asked);

// Hands over to the program that draws; it alone carries the fonts.
int sheet(int argc, char** argv);

}  // namespace trammel::cli
