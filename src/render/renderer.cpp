#include "render/renderer.h"
