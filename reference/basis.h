// How a published value was come by: kept with every row, shown with every number that uses it.
#pragma once

namespace trammel::reference {

enum class Basis {
  as_published,            // the number stands in the source named
  as_published_secondary,  // in a copy or quotation of it
  derived,                 // computed from a published definition or chosen among published values
  from_memory,             // no source opened
  computed                 // worked back from other published numbers
};

}  // namespace trammel::reference
