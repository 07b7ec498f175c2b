/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The widget behind sw_sign_ask and sw_sign_in_ask. */
#pragma once

#include "app/sign/sign-box.h"

G_BEGIN_DECLS

#define SW_TYPE_SIGN_BOX (sw_sign_box_get_type ())
G_DECLARE_FINAL_TYPE (SwSignBox, sw_sign_box, SW, SIGN_BOX, GtkWidget)

G_END_DECLS
