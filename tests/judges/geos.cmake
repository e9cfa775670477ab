# Every test is cut into shards, so that they run side by side; a shard is a range of cases.
# LEEWAY_SETUPS and LEEWAY_SEED in the environment of ctest change how many and which.
find_library(LEEWAY_GEOS geos_c)
find_path(LEEWAY_GEOS_INCLUDE geos_c.h)
if(NOT LEEWAY_GEOS OR NOT LEEWAY_GEOS_INCLUDE)
  message(FATAL_ERROR "The tests need GEOS (Debian: libgeos-dev)")
endif()

add_library(leeway_judges STATIC geos.cpp geos_judge.cpp geos_moves.cpp geos_regions.cpp
                                 random_points.cpp random_setup.cpp random_shapes.cpp run.cpp
                                 shapes.cpp slabs.cpp)
target_include_directories(leeway_judges PUBLIC ${PROJECT_SOURCE_DIR}/include
                                                ${PROJECT_SOURCE_DIR}/tests)
target_include_directories(leeway_judges SYSTEM PUBLIC ${LEEWAY_GEOS_INCLUDE})
target_link_libraries(leeway_judges PUBLIC ${LEEWAY_GEOS} leeway_core
                                    PRIVATE leeway_flags nlohmann_json::nlohmann_json)
if(LEEWAY_SANITIZE OR CMAKE_BUILD_TYPE STREQUAL "Debug")
  target_compile_definitions(leeway_judges PRIVATE LEEWAY_DEFAULT_SETUPS=500)
else()
  target_compile_definitions(leeway_judges PRIVATE LEEWAY_DEFAULT_SETUPS=10000)
endif()

function(leeway_judge name shards)
  add_executable(leeway_${name}_judge ${name}_test.cpp)
  target_link_libraries(leeway_${name}_judge PRIVATE leeway_judges leeway_flags GTest::gtest_main
                                                     leeway_fmt)
  math(EXPR last "${shards} - 1")
  foreach(shard RANGE ${last})
    add_test(NAME judges.${name}.${shard} COMMAND leeway_${name}_judge)
    set_tests_properties(judges.${name}.${shard} PROPERTIES
                         ENVIRONMENT "LEEWAY_SHARD=${shard}/${shards}" TIMEOUT 1200)
  endforeach()
endfunction()

leeway_judge(verdicts_geos 4)
leeway_judge(regions_geos 8)
leeway_judge(regions_verdicts 4)
leeway_judge(many_verdicts 2)
leeway_judge(moves_geos 2)
leeway_judge(validity_geos 1)
leeway_judge(field_geos 2)
leeway_judge(window 2)
leeway_judge(numbers_geos 1)
leeway_judge(walk 1)
target_sources(leeway_walk_judge PRIVATE motion_words.cpp)
# These two look at steps of ours that no public header names.
foreach(name field_geos window)
  target_include_directories(leeway_${name}_judge PRIVATE ${PROJECT_SOURCE_DIR}/src)
endforeach()
