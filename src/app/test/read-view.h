/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the Read page shows for a state of the test: asked of workflow once, used by every part. */
#pragma once

#include "workflow/guided.h"

G_BEGIN_DECLS

typedef struct
{
  SwNext next;
  gboolean paused;  /* the portion stood too long */
  gboolean notice;  /* a message in place of the tiles */
  gboolean waiting; /* a strip is to be read now */
  gboolean can_read;
  gboolean can_add;
  gboolean can_close; /* the outcome stands */
  gboolean fresh;     /* a fresh portion is what comes next */
  SwFact refusal;     /* why no strip can be read, where can_read is FALSE */
} SwReadView;

SwReadView sw_read_view_of (const SwGuidedTest *test, gint64 now_ms);

G_END_DECLS
