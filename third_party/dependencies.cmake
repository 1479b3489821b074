# Every third-party library, found once, from the distribution's packages (third_party/packages.txt lists them).

find_package(tomlplusplus 3.3 CONFIG REQUIRED)   # tomlplusplus::tomlplusplus
find_package(Eigen3 3.4 CONFIG REQUIRED)         # Eigen3::Eigen
find_package(glm 0.9.9 CONFIG REQUIRED)          # glm::glm
find_package(CLI11 2.1 CONFIG REQUIRED)          # CLI11::CLI11
find_package(tinyobjloader CONFIG REQUIRED)      # tinyobjloader::tinyobjloader; its version string is not a number
find_package(TBB 2021.8 CONFIG REQUIRED)         # TBB::tbb
find_package(Threads REQUIRED)
find_package(PkgConfig REQUIRED)
find_package(Freetype REQUIRED)
pkg_check_modules(JEMALLOC REQUIRED IMPORTED_TARGET jemalloc)
pkg_check_modules(FONTCONFIG REQUIRED IMPORTED_TARGET fontconfig)
pkg_check_modules(CAIRO REQUIRED IMPORTED_TARGET cairo)
pkg_check_modules(PANGO REQUIRED IMPORTED_TARGET pangocairo)
pkg_check_modules(XLSXWRITER REQUIRED IMPORTED_TARGET xlsxwriter)
pkg_check_modules(MINIZIP REQUIRED IMPORTED_TARGET minizip)
pkg_check_modules(EXPAT REQUIRED IMPORTED_TARGET expat)

if(SILLWRIGHT_VIEWER)
  find_package(glfw3 3.3 CONFIG REQUIRED)        # glfw
  pkg_check_modules(EPOXY REQUIRED IMPORTED_TARGET epoxy)
  pkg_check_modules(PNG REQUIRED IMPORTED_TARGET libpng)
  pkg_check_modules(IMGUI REQUIRED IMPORTED_TARGET imgui)
  find_path(IMGUI_BACKENDS_DIR imgui_impl_opengl3.h PATH_SUFFIXES imgui/backends REQUIRED)

  # ImGui ships no CMake config; its backends' headers are not on the pkg-config include path.
  add_library(sillwright_imgui INTERFACE)
  target_link_libraries(sillwright_imgui INTERFACE PkgConfig::IMGUI Freetype::Freetype ${CMAKE_DL_LIBS})
  target_include_directories(sillwright_imgui SYSTEM INTERFACE ${IMGUI_BACKENDS_DIR})
endif()

if(SILLWRIGHT_TESTS OR SILLWRIGHT_FUZZ)
  find_package(nlohmann_json 3.11 CONFIG REQUIRED)
endif()
if(SILLWRIGHT_TESTS)
  find_package(Catch2 CONFIG REQUIRED)           # 2.13 (Debian 12) or 3 (Debian 13): tests/support/catch.h serves both
  include(Catch)
  find_package(assimp 5.2 CONFIG REQUIRED)       # assimp::assimp
  find_library(RAPIDCHECK_LIBRARY rapidcheck REQUIRED)
  find_library(GLPK_LIBRARY glpk REQUIRED)
  # The distribution's own Python: its packages are what third_party/packages.txt installs.
  find_program(PYTHON3 python3 PATHS /usr/bin NO_DEFAULT_PATH)
  if(PYTHON3)
    execute_process(COMMAND ${PYTHON3} -c "import openpyxl" RESULT_VARIABLE OPENPYXL_MISSING OUTPUT_QUIET ERROR_QUIET)
  endif()
  if(NOT PYTHON3 OR OPENPYXL_MISSING)
    message(FATAL_ERROR "python3-openpyxl is not installed: the tests read workbooks with it. "
                        "Run: sh third_party/setup.sh test (or configure with -DSILLWRIGHT_TESTS=OFF)")
  endif()
endif()
if(SILLWRIGHT_BENCH)
  find_package(benchmark CONFIG REQUIRED)
endif()
