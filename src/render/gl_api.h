/// OpenGL's own names: 3.3 on a desktop, ES 3 in a browser. Inside this room and the viewer's window only.
#pragma once

#ifdef __EMSCRIPTEN__
#include <GLES3/gl3.h>
#else
#include <epoxy/gl.h>
#endif
