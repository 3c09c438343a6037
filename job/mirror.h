// The other side of the cart: y turned about, `left` and `right` exchanged in words.
#pragma once

#include <string>
#include <string_view>

#include "job/kit.h"

namespace trammel {

Corner mirrored(Corner corner);
ChangeValue mirrored(ChangeValue value);

// "rear.link.left lower" to "rear.link.right lower"; unchanged where no such word stands in it.
std::string other_side(std::string_view words);

}  // namespace trammel
