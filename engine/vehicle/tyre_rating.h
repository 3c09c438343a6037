// What a tyre may carry by the two marks on its sidewall.
//
// Model: the load index names the load of one tyre, the speed symbol the speed up to which it holds, each at the
// pressure that the tyre's maker gives. Read from the tables in reference/ (ISO 4000-1 / ETRTO), never
// interpolated. Nothing where a mark is not in its table. Not scaled: tables of more load at lower speed are the tyre
// maker's, and a tyre of a cart is often marked with a load in place of an index, which then counts.
// Error: none; the rows are as printed. Source and basis come with every row.
#pragma once

#include "vehicle/axle_load.h"

namespace trammel::vehicle {

std::optional<TyreRating> tyre_rating(int load_index, std::string_view speed_symbol);

}  // namespace trammel::vehicle
