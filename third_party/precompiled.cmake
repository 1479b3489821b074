# The headers that nearly every file reads, compiled once for the rooms and once for the tests (-DSILLWRIGHT_PRECOMPILE=ON).
# A file still includes what it uses: a build without this option, as every developer's with ccache is, sees to it.

if(SILLWRIGHT_PRECOMPILE)
  # All files alike: Pango's flags have it on Debian 13, and what was precompiled without it isn't taken there.
  target_compile_options(sillwright_settings INTERFACE -pthread)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # GCC forgets of precompiled lines that they are a system header's, and tells what it suspects in std::string
    # (GCC bug 105651 and its kin, as in settings.cmake). Builds without this option still warn.
    target_compile_options(sillwright_settings INTERFACE -Wno-stringop-overflow -Wno-stringop-overread -Wno-array-bounds)
  endif()
  set(headers <algorithm> <array> <cmath> <cstdint> <filesystem> <functional> <map> <memory> <optional> <span> <string>
    <string_view> <utility> <variant> <vector>)
  file(WRITE ${CMAKE_BINARY_DIR}/precompiled.cpp "")
  add_library(precompiled_room OBJECT ${CMAKE_BINARY_DIR}/precompiled.cpp)
  target_link_libraries(precompiled_room PRIVATE sillwright_settings)
  target_precompile_headers(precompiled_room PRIVATE ${headers})
  sillwright_sanitized_room(precompiled_room)
  if(SILLWRIGHT_TESTS)
    add_library(precompiled_test OBJECT ${CMAKE_BINARY_DIR}/precompiled.cpp)
    target_link_libraries(precompiled_test PRIVATE sillwright_settings Catch2::Catch2)
    sillwright_own_code_of_test(precompiled_test)
    target_precompile_headers(precompiled_test PRIVATE ${headers} ${PROJECT_SOURCE_DIR}/tests/support/catch.h)
  endif()
endif()

# sillwright_precompiled(TARGET room|test)
function(sillwright_precompiled target kind)
  if(SILLWRIGHT_PRECOMPILE)
    target_precompile_headers(${target} REUSE_FROM precompiled_${kind})
  endif()
endfunction()
