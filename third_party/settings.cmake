# How this project compiles its own code. Third-party headers are SYSTEM and stay outside these warnings.

add_library(sillwright_settings INTERFACE)
target_compile_features(sillwright_settings INTERFACE cxx_std_20)
target_compile_options(sillwright_settings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror
  -ffp-contract=off)   # the same figures on every machine, whether or not it has fused multiply-add
target_include_directories(sillwright_settings INTERFACE ${PROJECT_SOURCE_DIR}/src)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # GCC 12 to 14 see uninitialised members in the moves of variants and optionals (GCC bug 105562 and its kin).
  target_compile_options(sillwright_settings INTERFACE -Wno-maybe-uninitialized)
  if(CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
    # GCC 12 sees overlapping copies in std::string's operator+ that are not there (GCC bug 105651).
    target_compile_options(sillwright_settings INTERFACE -Wno-restrict)
  else()
    # GCC 13 and 14 suspect every reference from a function that was also given a temporary: shipped("au").
    target_compile_options(sillwright_settings INTERFACE -Wno-dangling-reference)
  endif()
endif()

if(SILLWRIGHT_FUZZ)
  if(NOT CMAKE_CXX_COMPILER_ID MATCHES "Clang")
    message(FATAL_ERROR "SILLWRIGHT_FUZZ wants clang (-DCMAKE_CXX_COMPILER=clang++): libFuzzer is its own.")
  endif()
  set(SILLWRIGHT_SANITIZE ON)
endif()
if(SILLWRIGHT_SANITIZE)
  # -g1: a report names its lines, and the debug information doesn't take half of the compiling.
  target_compile_options(sillwright_settings INTERFACE
    -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer -g1 -D_GLIBCXX_ASSERTIONS)
  target_link_options(sillwright_settings INTERFACE -fsanitize=address,undefined)
  if(CMAKE_CXX_COMPILER_ID MATCHES "Clang")
    target_compile_options(sillwright_settings INTERFACE -w)  # GCC's warnings are what the code is held to
  endif()
endif()

# Rooms under the sanitizers are optimised a little, or running their tests takes minutes; the tests themselves are
# not, or compiling them does. For the fuzzer all rooms count their branches, so that their headers are compiled once.
function(sillwright_sanitized_room target)
  if(SILLWRIGHT_SANITIZE)
    target_compile_options(${target} PRIVATE -O1)
  endif()
  if(SILLWRIGHT_FUZZ)
    target_compile_options(${target} PRIVATE -fsanitize=fuzzer-no-link)
    if(NOT target MATCHES "_(job|practice|exchange)$")  # elsewhere comparisons are of figures, not of the input's bytes
      target_compile_options(${target} PRIVATE -fno-sanitize-coverage=trace-cmp)
    endif()
  endif()
endfunction()

# sillwright_room(job SOURCES read.cpp … NEEDS practice PRIVATE tomlplusplus::tomlplusplus)
# One static library a room. NEEDS: rooms its public headers include. PUBLIC/PRIVATE: third-party targets.
function(sillwright_room name)
  cmake_parse_arguments(ROOM "" "" "SOURCES;NEEDS;PUBLIC;PRIVATE" ${ARGN})
  add_library(sillwright_${name} STATIC ${ROOM_SOURCES})
  list(TRANSFORM ROOM_NEEDS PREPEND sillwright_)
  target_link_libraries(sillwright_${name}
    PUBLIC ${ROOM_NEEDS} ${ROOM_PUBLIC}
    PRIVATE sillwright_settings ${ROOM_PRIVATE})
  target_include_directories(sillwright_${name} PUBLIC ${PROJECT_SOURCE_DIR}/src)
  sillwright_sanitized_room(sillwright_${name})
  sillwright_precompiled(sillwright_${name} room)
endfunction()

# What is tested is compiled as it is used; what tests it, sooner.
function(sillwright_own_code_of_test target)
  if(NOT SILLWRIGHT_SANITIZE)
    target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O1>)
  endif()
endfunction()

# sillwright_test(job SOURCES read_test.cpp … NEEDS job): one test program a room, each case a test of its own.
function(sillwright_test name)
  cmake_parse_arguments(TEST "" "TIMEOUT" "SOURCES;NEEDS;LIBRARIES;LABELS" ${ARGN})
  if(NOT TEST_TIMEOUT)
    set(TEST_TIMEOUT 120)
  endif()
  add_executable(test_${name} ${TEST_SOURCES})
  list(TRANSFORM TEST_NEEDS PREPEND sillwright_)
  target_link_libraries(test_${name} PRIVATE sillwright_settings ${TEST_NEEDS} ${TEST_LIBRARIES} Catch2::Catch2WithMain)
  target_include_directories(test_${name} PRIVATE ${PROJECT_SOURCE_DIR}/tests)
  target_compile_definitions(test_${name} PRIVATE
    SILLWRIGHT_SOURCE_DIR="${PROJECT_SOURCE_DIR}" SILLWRIGHT_ASSETS_DIR="${PROJECT_SOURCE_DIR}/assets")
  sillwright_precompiled(test_${name} test)
  sillwright_own_code_of_test(test_${name})
  # A name that CMake takes apart (at a semicolon) finds no test, and Catch2 2 says so with status 0.
  catch_discover_tests(test_${name} TEST_PREFIX "${name}: "
    PROPERTIES FAIL_REGULAR_EXPRESSION "No test cases matched" TIMEOUT ${TEST_TIMEOUT} LABELS "${name};${TEST_LABELS}")
endfunction()
