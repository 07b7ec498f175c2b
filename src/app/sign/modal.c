/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A box over a window.
 *
 *   shown --Escape, near unmapped, window gone, another box--> closed, "given-up"
 *         --sw_modal_close-----------------------------------> closed
 *
 * Invariants:
 *   1. overlay is set exactly while the box is shown; then what lies below takes no input.
 *   2. "given-up" is emitted at most once, and never after sw_modal_close.
 */
#include "app/sign/modal.h"

#include "app/window.h"

struct _SwModal
{
  GtkWidget parent_instance;

  /* Template children */
  GtkWidget *scroller;
  GtkBox *card;

  GtkOverlay *overlay; /* Borrowed */
  GtkWidget *near;     /* Borrowed, weak */
  GtkWidget *focus;    /* Borrowed, weak: what had the focus before */
  gulong unmap;
};

static guint signal_given_up;

G_DEFINE_FINAL_TYPE (SwModal, sw_modal, GTK_TYPE_WIDGET)

/* The outermost around @widget; for what sits in a title bar, the one that fills the window. */
static GtkOverlay *
find_overlay (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *child = GTK_IS_WINDOW (root) ? gtk_window_get_child (GTK_WINDOW (root)) : NULL;
  GtkOverlay *found = GTK_IS_OVERLAY (child) ? GTK_OVERLAY (child) : NULL;

  for (; widget != NULL; widget = gtk_widget_get_parent (widget))
    if (GTK_IS_OVERLAY (widget))
      found = GTK_OVERLAY (widget);
  return found;
}

/* What lies below rests: no clicks, no mnemonics, no way in for the focus. */
static void
set_below (SwModal *self, gboolean rests)
{
  GtkWidget *below = gtk_overlay_get_child (self->overlay);
  SwWindow *window = sw_window_of (GTK_WIDGET (self->overlay));

  if (below != NULL)
    gtk_widget_set_sensitive (below, !rests);
  if (window != NULL)
    sw_window_set_resting (window, rests);
}

static void
set_weak (GtkWidget **place, GtkWidget *widget)
{
  g_set_weak_pointer (place, widget);
}

static void
forget_near (SwModal *self)
{
  if (self->near != NULL && self->unmap != 0)
    g_signal_handler_disconnect (self->near, self->unmap);
  self->unmap = 0;
  set_weak (&self->near, NULL);
}

/* Back to where it was. An entry must not go with the focus still in it: the window would speak to
 * it later, as when it closes under the box. */
static void
give_focus_back (SwModal *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    gtk_root_set_focus (root, NULL);
  if (self->focus != NULL && gtk_widget_get_mapped (self->focus))
    gtk_widget_grab_focus (self->focus);
  set_weak (&self->focus, NULL);
}

void
sw_modal_close (SwModal *self)
{
  g_return_if_fail (SW_IS_MODAL (self));
  if (self->overlay == NULL)
    return;
  forget_near (self);
  set_below (self, FALSE);
  give_focus_back (self);
  /* The last reference may be the overlay's. */
  GtkOverlay *overlay = self->overlay;
  self->overlay = NULL;
  gtk_overlay_remove_overlay (overlay, GTK_WIDGET (self));
}

void
sw_modal_give_up (SwModal *self)
{
  g_return_if_fail (SW_IS_MODAL (self));
  if (self->overlay == NULL)
    return;
  g_object_ref (self);
  sw_modal_close (self);
  g_signal_emit (self, signal_given_up, 0);
  g_object_unref (self);
}

/* ---- keys ---- */

static void
clear_focus_chain (SwModal *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *at = root != NULL ? gtk_root_get_focus (root) : NULL;

  for (; at != NULL && at != GTK_WIDGET (self); at = gtk_widget_get_parent (at))
    gtk_widget_set_focus_child (at, NULL);
  gtk_widget_set_focus_child (GTK_WIDGET (self), NULL);
}

/* Round and round in the box. */
static void
move_focus (SwModal *self, GtkDirectionType direction)
{
  if (gtk_widget_child_focus (self->scroller, direction))
    return;
  clear_focus_chain (self);
  gtk_widget_child_focus (self->scroller, direction);
}

/* What the controls in the box did not want: the window below must not have it. */
static gboolean
key_cb (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, SwModal *self)
{
  if (key == GDK_KEY_Escape)
    sw_modal_give_up (self);
  else if (key == GDK_KEY_Tab || key == GDK_KEY_KP_Tab)
    move_focus (self, (state & GDK_SHIFT_MASK) != 0 ? GTK_DIR_TAB_BACKWARD : GTK_DIR_TAB_FORWARD);
  else if (key == GDK_KEY_ISO_Left_Tab)
    move_focus (self, GTK_DIR_TAB_BACKWARD);
  return TRUE;
}

/* ---- class ---- */

static void
unmapped_cb (GtkWidget *near, SwModal *self)
{
  sw_modal_give_up (self);
}

static void
sw_modal_dispose (GObject *object)
{
  SwModal *self = SW_MODAL (object);
  gboolean shown = self->overlay != NULL;

  forget_near (self);
  set_weak (&self->focus, NULL);
  self->overlay = NULL;
  if (shown)
    g_signal_emit (self, signal_given_up, 0);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_modal_parent_class)->dispose (object);
}

static void
sw_modal_class_init (SwModalClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_modal_dispose;
  signal_given_up = g_signal_new ("given-up", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/sign/modal.ui");
  gtk_widget_class_bind_template_child (widget_class, SwModal, scroller);
  gtk_widget_class_bind_template_child (widget_class, SwModal, card);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_DIALOG);
}

static void
sw_modal_init (SwModal *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_MODAL, TRUE, -1);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

/* ---- public ---- */

SwModal *
sw_modal_show (GtkWidget *near, GtkWidget *content)
{
  GtkOverlay *overlay = find_overlay (near);
  SwModal *old = sw_modal_over (near);
  GtkRoot *root = gtk_widget_get_root (near);

  g_return_val_if_fail (overlay != NULL && root != NULL, NULL);
  if (old != NULL)
    sw_modal_give_up (old);
  SwModal *self = g_object_new (SW_TYPE_MODAL, NULL);
  gtk_box_append (self->card, content);
  set_weak (&self->near, near);
  set_weak (&self->focus, gtk_root_get_focus (root));
  self->unmap = g_signal_connect (near, "unmap", G_CALLBACK (unmapped_cb), self);
  self->overlay = overlay;
  gtk_overlay_add_overlay (overlay, GTK_WIDGET (self));
  set_below (self, TRUE);
  gtk_widget_child_focus (self->scroller, GTK_DIR_TAB_FORWARD);
  return self;
}

SwModal *
sw_modal_of (GtkWidget *content)
{
  GtkWidget *found = gtk_widget_get_ancestor (content, SW_TYPE_MODAL);

  return found != NULL ? SW_MODAL (found) : NULL;
}

SwModal *
sw_modal_over (GtkWidget *near)
{
  GtkOverlay *overlay = find_overlay (near);

  if (overlay == NULL)
    return NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (overlay)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (SW_IS_MODAL (child))
      return SW_MODAL (child);
  return NULL;
}
