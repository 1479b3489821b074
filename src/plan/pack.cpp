#include "plan/pack.h"
