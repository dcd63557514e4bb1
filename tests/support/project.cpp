#include "support/project.h"

std::string dogear::test::project_folder() { return DOGEAR_ROOT; }
