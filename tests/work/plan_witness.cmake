# Gecode has no package of its own for CMake. Tests and benchmarks share this target.
if(NOT TARGET plan_witness)
  add_library(plan_witness STATIC ${CMAKE_CURRENT_LIST_DIR}/plan_witness.cpp)
  target_include_directories(plan_witness PUBLIC ${CMAKE_SOURCE_DIR}/tests)
  target_compile_options(plan_witness PRIVATE -w)
  target_link_libraries(plan_witness PUBLIC trammel_work PRIVATE gecodeminimodel gecodeint gecodesearch gecodekernel gecodesupport)
endif()
