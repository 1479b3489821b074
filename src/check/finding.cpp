#include "check/finding.h"
