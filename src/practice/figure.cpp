#include "practice/figure.h"
