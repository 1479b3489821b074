#include "job/error.h"
