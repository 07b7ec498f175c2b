/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of the Read page, for its two files: read-page.c does, read-show.c shows. */
#pragma once

#include "app/test/ladder.h"
#include "app/test/read-page.h"
#include "app/test/shake-timer.h"
#include "app/widgets/caution.h"
#include "app/widgets/verdict.h"

G_BEGIN_DECLS

struct _SwReadPage
{
  SwStepPage parent_instance;

  /* Owned by the window while the page is mapped */
  GtkEventController *keys;

  /* Template children */
  GtkBox *tiles;
  GtkWidget *notice;
  SwVerdict *notice_mark;
  GtkLabel *notice_words;
  GtkButton *between;
  GtkWidget *take_back;
  GtkLabel *count;
  GtkScrolledWindow *ladder_scroller;
  SwLadder *ladder;
  SwShakeTimer *timer;
  SwCautionBar *caution;
  GtkButton *add;
  GtkMenuButton *several;
  GtkPopover *several_popover;
  SwFormRow *several_steps;
  GtkWidget *several_go;
  GtkWidget *close;
  GtkWidget *fresh;
  GtkLabel *next;
};

/* Shows the test as it is now. */
void sw_read_page_show (SwStepPage *page);

G_END_DECLS
