#include "job/read.h"
