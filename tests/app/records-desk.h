/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A busy plant with the Records page on screen, and a person who looks at it and presses. */
#pragma once

#include "app/records/record-list.h"
#include "tests/app/busy-plant.h"
#include "tests/app/snapshot.h"

G_BEGIN_DECLS

typedef struct
{
  BusyPlant *plant; /* Owned */
  SwWindow *window; /* Borrowed from the plant */
  GtkWidget *page;  /* Borrowed: the Records page */
} Desk;

/* The technician works; the list shows all tests in use, 1024 x 600. */
Desk *desk_new (void);
void desk_free (Desk *desk);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Desk, desk_free)

SwStore *desk_store (Desk *desk);
SwRecordList *desk_list (Desk *desk);
void desk_settle (Desk *desk);
void desk_show (Desk *desk, const SwBrowseFilter *filter);
void desk_open (Desk *desk, SwTable table, gint64 id);
/* Presses a button that can be pressed. */
void desk_press (Desk *desk, const char *label);
gboolean desk_says (GtkWidget *widget, const char *part);
void desk_assert_says (GtkWidget *widget, const char *part);
/* The list on screen is what the file answers to the same question. */
void desk_assert_list (Desk *desk, const SwBrowseFilter *filter);

G_END_DECLS
