/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Verify: what other tools did to the file, in sentences, with what to do; and its head. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_VERIFY_PAGE (sw_verify_page_get_type ())
G_DECLARE_FINAL_TYPE (SwVerifyPage, sw_verify_page, SW, VERIFY_PAGE, GtkWidget)

GtkWidget *sw_verify_page_new (SwContext *context);
/* TRUE while a verify runs. */
gboolean sw_verify_page_is_running (SwVerifyPage *self);

G_END_DECLS
