#include "render/offscreen.h"
