# The multibody library wants C++17 and its assertions on; its headers change layout with NDEBUG. Tests and
# benchmarks share this target.
if(NOT TARGET suspension_multibody_witness)
  find_package(Simbody REQUIRED)
  add_library(suspension_multibody_witness STATIC ${CMAKE_CURRENT_LIST_DIR}/multibody_witness.cpp)
  target_include_directories(suspension_multibody_witness PUBLIC ${CMAKE_SOURCE_DIR}/tests)
  target_include_directories(suspension_multibody_witness SYSTEM PRIVATE ${Simbody_INCLUDE_DIR})
  target_link_libraries(suspension_multibody_witness PRIVATE ${Simbody_LIBRARIES})
  target_compile_options(suspension_multibody_witness PRIVATE -UNDEBUG -w)
  set_target_properties(suspension_multibody_witness PROPERTIES CXX_STANDARD 17)
endif()
