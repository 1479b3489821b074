#include "plan/place.h"
