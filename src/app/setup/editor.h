/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a section's form page must do: show a record, say whether it was changed, save it. The
 * section around it has the buttons, the reason, and what becomes of a draft. */
#pragma once

#include <gtk/gtk.h>

#include "app/setup/form-spec.h"

G_BEGIN_DECLS

#define SW_TYPE_EDITOR (sw_editor_get_type ())
G_DECLARE_DERIVABLE_TYPE (SwEditor, sw_editor, SW, EDITOR, GtkWidget)

struct _SwEditorClass
{
  GtkWidgetClass parent_class;

  /* Shows the record, 0 = a new one. */
  gboolean (*open) (SwEditor *self, gint64 id, GError **error);
  /* Writes it; *id is set as soon as there is a row, even when the rest of it is refused. FALSE
   * with *error NULL: the faults stand at their fields already. */
  gboolean (*save) (SwEditor *self, const SwActor *actor, gint64 *id, GError **error);
  gboolean (*is_changed) (SwEditor *self);
  /* Puts a fault at its field. FALSE: no field is about it. */
  gboolean (*show_error) (SwEditor *self, const GError *error);
  /* Whether saving corrects what is on file, and so needs a reason. NULL: whenever it has an id. */
  gboolean (*amends) (SwEditor *self);
  /* The file changed: what can be chosen is asked anew, what was typed stays. */
  void (*refresh) (SwEditor *self);
  /* The focus goes to a field, NULL = the first. */
  void (*focus) (SwEditor *self, const char *field);
};

SwContext *sw_editor_get_context (SwEditor *self); /* (transfer none) */
void sw_editor_set_context (SwEditor *self, SwContext *context);
/* What the widgets of the form are put into, a vertical box. (transfer none) */
GtkBox *sw_editor_get_box (SwEditor *self);
/* Of a new record there is nothing to amend and nothing to take out of use. */
gint64 sw_editor_get_id (SwEditor *self);

gboolean sw_editor_open (SwEditor *self, gint64 id, GError **error);
gboolean sw_editor_save (SwEditor *self, const SwActor *actor, GError **error);
gboolean sw_editor_is_changed (SwEditor *self);
gboolean sw_editor_amends (SwEditor *self);
gboolean sw_editor_show_error (SwEditor *self, const GError *error);
void sw_editor_refresh (SwEditor *self);
void sw_editor_focus (SwEditor *self, const char *field);

/* For editors: something was typed or chosen. Emits "changed". */
void sw_editor_changed (SwEditor *self);
/* Emits "open-other": another record is wanted, @section with @id (0 = a new one) at @field. */
void sw_editor_open_other (SwEditor *self, const char *section, gint64 id, const char *field);

G_END_DECLS
