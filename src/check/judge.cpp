#include "check/judge.h"
