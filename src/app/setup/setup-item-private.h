/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For the list that makes the lines. */
#pragma once

#include "app/setup/setup-list.h"

SwSetupItem *sw_setup_item_new (gint64 id);
