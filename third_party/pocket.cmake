# What the page for a phone is compiled with: Emscripten, and the libraries that are headers alone. The host's other headers
# must not be met, so a folder of links stands in for /usr/include.

set(headers ${CMAKE_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})
foreach(each toml++ eigen3/Eigen glm tiny_obj_loader.h)
  get_filename_component(name ${each} NAME)
  if(NOT EXISTS /usr/include/${each})
    message(FATAL_ERROR "/usr/include/${each} is missing. Run: sh third_party/setup.sh pocket")
  endif()
  file(CREATE_LINK /usr/include/${each} ${headers}/${name} SYMBOLIC)
endforeach()

foreach(each tomlplusplus::tomlplusplus Eigen3::Eigen glm::glm tinyobjloader::tinyobjloader)
  add_library(${each} INTERFACE IMPORTED GLOBAL)
  target_include_directories(${each} SYSTEM INTERFACE ${headers})
endforeach()
target_compile_definitions(tomlplusplus::tomlplusplus INTERFACE TOML_HEADER_ONLY=1)
foreach(each TBB::tbb Threads::Threads PkgConfig::JEMALLOC PkgConfig::EPOXY PkgConfig::PNG)  # a page has one thread and a browser's OpenGL
  add_library(${each} INTERFACE IMPORTED GLOBAL)
endforeach()

target_compile_options(sillwright_settings INTERFACE -fexceptions -w -include ${PROJECT_SOURCE_DIR}/src/pocket/library.h)  # GCC's warnings are what the code is held to
target_link_options(sillwright_settings INTERFACE -fexceptions)
