// Pieces of the stack's text form that both the stack and the one-line question read. Private to the room.
#pragma once

#include <variant>

#include "fastener/joint.h"
#include "fastener/scanner.h"

namespace trammel::fastener {

// Takes thread and, where it follows, length: "M10x1.25x40", "3/8-16 UNC x 1 1/2 in".
std::optional<StackError> take_thread(Scanner& scanner, Thread& thread, std::optional<Length>& length);
// Takes class, finish and across flats in any order, as far as they go.
void take_bolt_words(Scanner& scanner, Bolt& bolt);
// Whether a threaded part's word or a thread stands next.
bool threaded_part_next(Scanner scanner);
// Whether "bolt" or one of its like stands next.
bool bolt_word_next(Scanner scanner);
// Takes "bolt M10x40 8.8 zinc" or a bare thread with its words, as far as they go.
std::optional<StackError> take_bolt(Scanner& scanner, Bolt& bolt);
// The error of a class that does not exist, with the nearest by number; nothing where no class stands next.
std::optional<StackError> unknown_class(Scanner scanner);
// The error of an unknown word that stands next, with the nearest known one.
StackError unknown_word(const Scanner& scanner, StackFault fault = StackFault::word_unknown);

}  // namespace trammel::fastener
