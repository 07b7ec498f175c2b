/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What window.c (pages, sidebar, messages) and window-test.c (guided tests) share. */
#pragma once

#include "app/window.h"

#include "app/machine/machine-page.h"
#include "app/person-button.h"
#include "app/sidebar.h"
#include "app/test/test-page.h"
#include "app/toast.h"
#include "app/todo/todo-page.h"

G_BEGIN_DECLS

struct _SwWindow
{
  GtkApplicationWindow parent_instance;

  /* Owned */
  SwContext *context;

  /* Template children */
  GtkMenuButton *menu;
  GtkLabel *title;
  SwPersonButton *person;
  GtkWidget *demo_banner;
  GtkWidget *read_only_banner;
  GtkLabel *read_only_text;
  GtkWidget *secret_banner;
  GtkWidget *trust_banner;
  GtkLabel *trust_text;
  GtkWidget *backup_banner;
  GtkLabel *backup_text;
  GtkStack *frame;
  SwSidebar *sidebar;
  GtkStack *pages;
  SwTodoPage *todo;
  SwMachinePage *machine;
  SwToast *toast;

  /* Borrowed: children of the stacks, NULL until first asked for */
  GtkWidget *records;
  GtkWidget *setup;
  GtkWidget *verify;
  GtkWidget *test;

  guint timer;
  guint idle_timer;

  /* A test that waits until somebody says who works: plan or titration, both 0 = none */
  struct
  {
    gint64 plan;
    SwPurpose purpose;
    gint64 answers_dose;
    gint64 titration;
  } waiting;

  /* What the message's Undo takes back */
  struct
  {
    SwTable table;
    gint64 id;
  } undo;
};

/* The title, in header bar and task list. */
void sw_window_set_place (SwWindow *self, const char *title);
/* Title and selection of the page that the sidebar's side shows. */
void sw_window_show_place (SwWindow *self);
gboolean sw_window_shows_test (SwWindow *self);
gboolean sw_window_shows_page (SwWindow *self, const char *name);
/* The page beside the sidebar, with its title. */
void sw_window_show_page (SwWindow *self, const char *name);
/* The focus goes to what can be searched on the page that is shown. */
void sw_window_find (SwWindow *self);
/* Away from a test that may be open: the file keeps it where it stands. */
void sw_window_show_plant (SwWindow *self);

/* ---- window-backup.c ---- */
/* The banner of a backup that failed, which stays until one goes well. */
void sw_window_watch_backups (SwWindow *self);

/* ---- window-sign.c ---- */
void sw_window_watch_people (SwWindow *self);
/* The banner of a file that no administrator's secret guards yet. */
void sw_window_show_guard (SwWindow *self);
/* ---- window-trust.c ---- */
/* The banner of a file that lacks what this PC has signed. */
void sw_window_watch_trust (SwWindow *self);

/* ---- window-undo.c ---- */
void sw_window_watch_undo (SwWindow *self);

/* Goes on with the test that waited for a person, if any. */
void sw_window_go_on (SwWindow *self);
/* Nobody was picked: nothing waits any longer. */
void sw_window_give_up (SwWindow *self);

G_END_DECLS
