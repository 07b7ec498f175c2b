/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The base of all pages of the guided test.
 *
 * Invariants:
 *   1. context and test are both set (page open) or both NULL (page closed).
 *   2. An error is shown in one place only: at the row that the table of places names for it, else
 *      on the line above the buttons. What was typed is never touched.
 *   3. "moved" is emitted only after a move was written; the frame then decides which page shows.
 */
#include "app/test/step-page.h"

#include "app/test/error-line.h"
#include "app/test/places.h"
#include "app/test/reveal.h"
#include "wording/sentence-test.h"

typedef struct
{
  /* Owned */
  char *title;
  char *subtitle;
  SwPlaces *places;

  /* Borrowed */
  SwContext *context;
  SwGuidedTest *test;
  SwFormRow *looked_at; /* the row whose second look was shown last ... */
  double looked_value;  /* ... for this number */
  GtkWidget *default_button;

  /* Template children */
  GtkWidget *layout;
  GtkScrolledWindow *scroller;
  GtkBox *body;
  GtkBox *actions;
  SwErrorLine *message;
} SwStepPagePrivate;

enum
{
  PROP_TITLE = 1,
  PROP_SUBTITLE,
  N_PROPS
};

static GParamSpec *props[N_PROPS];
enum
{
  SIGNAL_MOVED,
  SIGNAL_ASK,
  SIGNAL_LEAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];
static GtkBuildableIface *parent_buildable;

static void buildable_init (GtkBuildableIface *iface);

G_DEFINE_ABSTRACT_TYPE_WITH_CODE (SwStepPage,
                                  sw_step_page,
                                  GTK_TYPE_WIDGET,
                                  G_ADD_PRIVATE (SwStepPage)
                                      G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, buildable_init))

static SwStepPagePrivate *
get_private (SwStepPage *self)
{
  return sw_step_page_get_instance_private (self);
}

/* A page's template puts its children into the body and the bar of this one. While this class's own
 * template is built there is no body yet. */
static void
add_child (GtkBuildable *buildable, GtkBuilder *builder, GObject *child, const char *type)
{
  SwStepPagePrivate *priv = get_private (SW_STEP_PAGE (buildable));

  if (priv->body == NULL || !GTK_IS_WIDGET (child))
    parent_buildable->add_child (buildable, builder, child, type);
  else if (g_strcmp0 (type, "action") == 0)
    gtk_box_append (priv->actions, GTK_WIDGET (child));
  else
    gtk_box_append (priv->body, GTK_WIDGET (child));
}

static void
buildable_init (GtkBuildableIface *iface)
{
  parent_buildable = g_type_interface_peek_parent (iface);
  iface->add_child = add_child;
}

static void
set_text (SwStepPage *self, guint id, const char *text)
{
  SwStepPagePrivate *priv = get_private (self);
  char **place = id == PROP_TITLE ? &priv->title : &priv->subtitle;

  if (g_strcmp0 (*place, text) == 0)
    return;
  g_free (*place);
  *place = g_strdup (text);
  g_object_notify_by_pspec (G_OBJECT (self), props[id]);
}

static void
sw_step_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  set_text (SW_STEP_PAGE (object), id, g_value_get_string (value));
}

static void
sw_step_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  SwStepPagePrivate *priv = get_private (SW_STEP_PAGE (object));

  g_value_set_string (value, id == PROP_TITLE ? priv->title : priv->subtitle);
}

/* The window's default button is the page's while the page is on screen. */
static void
apply_default (SwStepPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (GTK_IS_WINDOW (root) && gtk_widget_get_mapped (GTK_WIDGET (self)))
    gtk_window_set_default_widget (GTK_WINDOW (root), get_private (self)->default_button);
}

static void
sw_step_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (sw_step_page_parent_class)->map (widget);
  apply_default (SW_STEP_PAGE (widget));
}

static void
sw_step_page_unmap (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  if (GTK_IS_WINDOW (root))
    gtk_window_set_default_widget (GTK_WINDOW (root), NULL);
  GTK_WIDGET_CLASS (sw_step_page_parent_class)->unmap (widget);
}

static void
sw_step_page_dispose (GObject *object)
{
  SwStepPagePrivate *priv = get_private (SW_STEP_PAGE (object));

  g_clear_pointer (&priv->layout, gtk_widget_unparent);
  priv->body = NULL;
  G_OBJECT_CLASS (sw_step_page_parent_class)->dispose (object);
}

static void
sw_step_page_finalize (GObject *object)
{
  SwStepPagePrivate *priv = get_private (SW_STEP_PAGE (object));

  g_clear_pointer (&priv->title, g_free);
  g_clear_pointer (&priv->subtitle, g_free);
  g_clear_pointer (&priv->places, sw_places_free);
  G_OBJECT_CLASS (sw_step_page_parent_class)->finalize (object);
}

static void
sw_step_page_class_init (SwStepPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->set_property = sw_step_page_set_property;
  object_class->get_property = sw_step_page_get_property;
  object_class->dispose = sw_step_page_dispose;
  object_class->finalize = sw_step_page_finalize;
  widget_class->map = sw_step_page_map;
  widget_class->unmap = sw_step_page_unmap;
  props[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, flags);
  props[PROP_SUBTITLE] = g_param_spec_string ("subtitle", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[SIGNAL_MOVED]
      = g_signal_new ("moved", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_ASK] = g_signal_new ("ask", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                      G_TYPE_NONE, 1, G_TYPE_INT);
  signals[SIGNAL_LEAVE]
      = g_signal_new ("leave", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (SW_TYPE_ERROR_LINE);
  g_type_ensure (SW_TYPE_FORM_ROW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/step-page.ui");
  gtk_widget_class_bind_template_child_private (widget_class, SwStepPage, layout);
  gtk_widget_class_bind_template_child_private (widget_class, SwStepPage, scroller);
  gtk_widget_class_bind_template_child_private (widget_class, SwStepPage, body);
  gtk_widget_class_bind_template_child_private (widget_class, SwStepPage, actions);
  gtk_widget_class_bind_template_child_private (widget_class, SwStepPage, message);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swsteppage");
}

static void
sw_step_page_init (SwStepPage *self)
{
  SwStepPagePrivate *priv = get_private (self);

  priv->places = sw_places_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* ---- the test ---- */

void
sw_step_page_open (SwStepPage *self, SwContext *context, SwGuidedTest *test)
{
  SwStepPagePrivate *priv = get_private (self);

  g_return_if_fail (context != NULL && test != NULL);
  priv->context = context;
  priv->test = test;
  priv->looked_at = NULL;
  sw_step_page_clear_errors (self);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (priv->scroller), 0.0);
  if (SW_STEP_PAGE_GET_CLASS (self)->fill != NULL)
    SW_STEP_PAGE_GET_CLASS (self)->fill (self);
  sw_step_page_refresh (self);
}

void
sw_step_page_refresh (SwStepPage *self)
{
  if (get_private (self)->test != NULL && SW_STEP_PAGE_GET_CLASS (self)->show != NULL)
    SW_STEP_PAGE_GET_CLASS (self)->show (self);
}

void
sw_step_page_swap (SwStepPage *self, SwGuidedTest *test)
{
  get_private (self)->test = test;
  sw_step_page_refresh (self);
}

void
sw_step_page_close (SwStepPage *self)
{
  SwStepPagePrivate *priv = get_private (self);

  if (priv->test != NULL && SW_STEP_PAGE_GET_CLASS (self)->close != NULL)
    SW_STEP_PAGE_GET_CLASS (self)->close (self);
  priv->context = NULL;
  priv->test = NULL;
}

SwContext *
sw_step_page_get_context (SwStepPage *self)
{
  return get_private (self)->context;
}

SwGuidedTest *
sw_step_page_get_test (SwStepPage *self)
{
  return get_private (self)->test;
}

SwStore *
sw_step_page_get_store (SwStepPage *self)
{
  return sw_context_get_store (get_private (self)->context);
}

const SwWording *
sw_step_page_get_wording (SwStepPage *self)
{
  return sw_context_get_wording (get_private (self)->context);
}

void
sw_step_page_ask (SwStepPage *self, int what)
{
  g_signal_emit (self, signals[SIGNAL_ASK], 0, what);
}

void
sw_step_page_leave (SwStepPage *self)
{
  g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
}

/* ---- head ---- */

void
sw_step_page_set_title (SwStepPage *self, const char *title)
{
  set_text (self, PROP_TITLE, title);
}

void
sw_step_page_set_subtitle (SwStepPage *self, const char *subtitle)
{
  set_text (self, PROP_SUBTITLE, subtitle);
}

/* ---- errors ---- */

void
sw_step_page_add_place (SwStepPage *self, SwQuantityName quantity, SwFactCode fact, GtkWidget *row)
{
  sw_places_add (get_private (self)->places, quantity, fact, row);
}

void
sw_step_page_set_message (SwStepPage *self, const char *text)
{
  sw_error_line_set (get_private (self)->message, text);
}

void
sw_step_page_refuse_at (SwStepPage *self, GtkWidget *row, const char *text)
{
  if (text != NULL)
    sw_place_set_error (row, text);
  gtk_widget_grab_focus (row);
  sw_reveal (get_private (self)->scroller, row);
}

void
sw_step_page_clear_errors (SwStepPage *self)
{
  sw_places_clear (get_private (self)->places);
  sw_step_page_set_message (self, NULL);
}

/* A refused move has a fact to word, which wording cannot look for in a layer above it. */
static char *
say (SwStepPage *self, const GError *error)
{
  const SwFact *fact = sw_workflow_error_get_fact (error);
  const SwWording *wording = sw_step_page_get_wording (self);

  return fact != NULL ? sw_say_fact (wording, fact) : sw_say_error (wording, error);
}

gboolean
sw_step_page_settle (SwStepPage *self, gboolean moved, GError *error)
{
  g_autoptr (GError) owned = error;
  g_autofree char *words = NULL;
  GtkWidget *row;

  if (moved)
    {
      sw_step_page_clear_errors (self);
      g_signal_emit (self, signals[SIGNAL_MOVED], 0);
      return TRUE;
    }
  g_return_val_if_fail (owned != NULL, FALSE);
  words = say (self, owned);
  row = sw_places_find (get_private (self)->places, owned);
  if (row == NULL)
    {
      sw_step_page_set_message (self, words);
      return FALSE;
    }
  sw_step_page_refuse_at (self, row, words);
  return FALSE;
}

gboolean
sw_step_page_second_look (SwStepPage *self,
                          SwFormRow *row,
                          SwQuantityName quantity,
                          double value,
                          double usual,
                          SwUnit unit)
{
  SwStepPagePrivate *priv = get_private (self);
  g_autofree char *text
      = sw_say_second_look (sw_step_page_get_wording (self), quantity, value, usual, unit);

  if (text == NULL || (priv->looked_at == row && priv->looked_value == value))
    return TRUE;
  priv->looked_at = row;
  priv->looked_value = value;
  sw_step_page_refuse_at (self, GTK_WIDGET (row), text);
  return FALSE;
}

void
sw_step_page_set_default (SwStepPage *self, GtkWidget *button)
{
  get_private (self)->default_button = button;
  apply_default (self);
}
