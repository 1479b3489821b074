#include "scene/build.h"
