// What a distribution compiles into a library of its own.
#define TINYOBJLOADER_IMPLEMENTATION
#include <tiny_obj_loader.h>
