#include "plan/shape.h"
