#include "plan/settle.h"
