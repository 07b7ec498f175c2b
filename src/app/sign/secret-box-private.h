/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The widget behind sw_secret_ask. */
#pragma once

#include "app/sign/secret-box.h"

G_BEGIN_DECLS

#define SW_TYPE_SECRET_BOX (sw_secret_box_get_type ())
G_DECLARE_FINAL_TYPE (SwSecretBox, sw_secret_box, SW, SECRET_BOX, GtkWidget)

G_END_DECLS
