// Running heads and feet, and the word across a draft.
#pragma once

#include "setting/workshop.h"

namespace soundsill::page {

/// On every page; after all pages are there, for they are counted.
void put_running(Workshop& shop);

}  // namespace soundsill::page
