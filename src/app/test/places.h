/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page's table of which row an error belongs to. Rows are SwFormRow, SwChoiceRow, SwAnswerRow,
 * SwReasonRow or SwPointList. */
#pragma once

#include <gtk/gtk.h>

#include "calc/fact.h"
#include "calc/fault.h"

G_BEGIN_DECLS

typedef struct _SwPlaces SwPlaces;

SwPlaces *sw_places_new (void);
void sw_places_free (SwPlaces *places);

/* @row is borrowed. Either code may be 0: a row with neither is only cleared with the others. */
void sw_places_add (SwPlaces *places, SwQuantityName quantity, SwFactCode fact, GtkWidget *row);
/* The visible row where @error belongs, or NULL. (transfer none) */
GtkWidget *sw_places_find (SwPlaces *places, const GError *error);
/* Takes the errors off all rows. */
void sw_places_clear (SwPlaces *places);
/* Sets (with NULL clears) the error at any of those kinds of row. */
void sw_place_set_error (GtkWidget *row, const char *text);

G_END_DECLS
