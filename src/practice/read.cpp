#include "practice/read.h"
