// The firmware's own headers, as the board compiles them.
#pragma once
#include "button.h"
#include "firmata.h"
#include "keeper.h"
#include "talk.h"
