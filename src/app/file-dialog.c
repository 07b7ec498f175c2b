/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The desktop's file dialog. GTK 4.8 has GtkFileChooserNative; later versions keep it. */
#include "app/file-dialog.h"

typedef struct
{
  SwFileChosen chosen;
  gpointer data;      /* Borrowed */
  const char *suffix; /* Borrowed, static: added to what is written; NULL: a file is read */
} Question;

static char *
with_suffix (const char *path, const char *suffix)
{
  return g_str_has_suffix (path, suffix) ? g_strdup (path) : g_strconcat (path, suffix, NULL);
}

static void
response_cb (GtkNativeDialog *dialog, int response, gpointer data)
{
  g_autofree Question *question = data;
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog))
                               : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path != NULL && question->suffix != NULL)
    {
      g_autofree char *whole = with_suffix (path, question->suffix);
      question->chosen (whole, question->data);
    }
  else
    question->chosen (path, question->data);
  g_object_unref (dialog);
}

static void
add_filters (GtkFileChooser *chooser, const SwWording *wording)
{
  g_autoptr (GtkFileFilter) plants = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (plants, sw_tr (wording, "Plants"));
  gtk_file_filter_add_suffix (plants, "stillwarden");
  gtk_file_filter_set_name (all, sw_tr (wording, "All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, plants);
  gtk_file_chooser_add_filter (chooser, all);
}

/* A name without anything that could be a folder. */
static void
propose (GtkFileChooser *chooser, const char *name, const char *suffix)
{
  g_autofree char *whole = with_suffix (name, suffix);

  g_strdelimit (whole, "/\\", '-');
  gtk_file_chooser_set_current_name (chooser, whole);
}

static void
ask (GtkWindow *parent, GtkFileChooserNative *dialog, Question question)
{
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect (dialog, "response", G_CALLBACK (response_cb),
                    g_memdup2 (&question, sizeof question));
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
sw_file_dialog_open (GtkWindow *parent,
                     const SwWording *wording,
                     SwFileChosen chosen,
                     gpointer data)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      sw_tr (wording, "Open a Plant"), parent, GTK_FILE_CHOOSER_ACTION_OPEN,
      sw_tr (wording, "_Open"), sw_tr (wording, "_Cancel"));

  add_filters (GTK_FILE_CHOOSER (dialog), wording);
  ask (parent, dialog, (Question){ .chosen = chosen, .data = data });
}

void
sw_file_dialog_save (GtkWindow *parent,
                     const SwWording *wording,
                     const char *name,
                     SwFileChosen chosen,
                     gpointer data)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      sw_tr (wording, "Keep the New Plant"), parent, GTK_FILE_CHOOSER_ACTION_SAVE,
      sw_tr (wording, "_Create"), sw_tr (wording, "_Cancel"));

  add_filters (GTK_FILE_CHOOSER (dialog), wording);
  propose (GTK_FILE_CHOOSER (dialog), name, SW_FILE_SUFFIX);
  ask (parent, dialog, (Question){ .chosen = chosen, .data = data, .suffix = SW_FILE_SUFFIX });
}

void
sw_file_dialog_export (GtkWindow *parent,
                       const SwWording *wording,
                       const char *name,
                       const char *suffix,
                       SwFileChosen chosen,
                       gpointer data)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      sw_tr (wording, "Export"), parent, GTK_FILE_CHOOSER_ACTION_SAVE, sw_tr (wording, "_Export"),
      sw_tr (wording, "_Cancel"));

  propose (GTK_FILE_CHOOSER (dialog), name, suffix);
  ask (parent, dialog, (Question){ .chosen = chosen, .data = data, .suffix = suffix });
}

void
sw_file_dialog_save_as (GtkWindow *parent,
                        const SwWording *wording,
                        const char *title,
                        const char *name,
                        SwFileChosen chosen,
                        gpointer data)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (title, parent, GTK_FILE_CHOOSER_ACTION_SAVE,
                                     sw_tr (wording, "_Save"), sw_tr (wording, "_Cancel"));

  add_filters (GTK_FILE_CHOOSER (dialog), wording);
  propose (GTK_FILE_CHOOSER (dialog), name, SW_FILE_SUFFIX);
  ask (parent, dialog, (Question){ .chosen = chosen, .data = data, .suffix = SW_FILE_SUFFIX });
}

void
sw_file_dialog_folder (GtkWindow *parent,
                       const SwWording *wording,
                       const char *title,
                       SwFileChosen chosen,
                       gpointer data)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (title, parent, GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER,
                                     sw_tr (wording, "_Choose"), sw_tr (wording, "_Cancel"));

  ask (parent, dialog, (Question){ .chosen = chosen, .data = data });
}
