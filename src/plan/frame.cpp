#include "plan/frame.h"
