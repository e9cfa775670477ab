# The judge of Minkowski sums. get-cgal.sh unpacks its headers into a folder.
set(LEEWAY_CGAL "" CACHE PATH "Folder into which get-cgal.sh unpacked CGAL (it holds usr/include)")

find_path(LEEWAY_CGAL_HEADERS CGAL/minkowski_sum_2.h NO_CACHE NO_DEFAULT_PATH
          PATHS ${LEEWAY_CGAL}/usr/include ${PROJECT_BINARY_DIR}/usr/include)
if(NOT LEEWAY_CGAL_HEADERS)
  if(LEEWAY_CGAL)
    message(SEND_ERROR "There is no CGAL in ${LEEWAY_CGAL}: run tests/judges/get-cgal.sh")
  endif()
  message(STATUS "The CGAL judge of Minkowski sums is left out: LEEWAY_CGAL is not set")
  return()
endif()
find_library(LEEWAY_GMP gmp REQUIRED)
find_library(LEEWAY_MPFR mpfr REQUIRED)

# Most of CGAL's compile time is optimising; little of the test's run time is.
add_library(leeway_cgal OBJECT cgal.cpp)
target_include_directories(leeway_cgal PRIVATE ${PROJECT_SOURCE_DIR}/include
                           ${PROJECT_SOURCE_DIR}/src ${PROJECT_SOURCE_DIR}/tests)
target_include_directories(leeway_cgal SYSTEM PRIVATE ${LEEWAY_CGAL_HEADERS})
target_compile_options(leeway_cgal PRIVATE -O1)
target_link_libraries(leeway_cgal PRIVATE leeway_flags Boost::headers)

add_executable(leeway_cgal_judge minkowski_cgal_test.cpp erosion_cgal_test.cpp
               $<TARGET_OBJECTS:leeway_cgal> ${LEEWAY_OBJECTS_model})
target_include_directories(leeway_cgal_judge PRIVATE ${PROJECT_SOURCE_DIR}/include
                           ${PROJECT_SOURCE_DIR}/src ${PROJECT_SOURCE_DIR}/tests)
target_link_libraries(leeway_cgal_judge PRIVATE leeway_flags GTest::gtest_main ${LEEWAY_MPFR}
                      ${LEEWAY_GMP})
gtest_discover_tests(leeway_cgal_judge TEST_PREFIX "judges." DISCOVERY_TIMEOUT 60
                     PROPERTIES TIMEOUT 600)
