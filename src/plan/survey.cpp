#include "plan/survey.h"
