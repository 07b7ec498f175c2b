/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A hidden row is no place: what nobody sees cannot say what is wrong. */
#include "app/test/places.h"

#include "app/test/answer-row.h"
#include "app/test/choice-row.h"
#include "app/test/point-list.h"
#include "app/test/reason-row.h"
#include "app/widgets/form-row.h"
#include "workflow/guided.h"

typedef struct
{
  SwQuantityName quantity;
  SwFactCode fact;
  GtkWidget *row; /* Borrowed: a template child of the page */
} Place;

struct _SwPlaces
{
  GArray *list; /* Place */
};

SwPlaces *
sw_places_new (void)
{
  SwPlaces *places = g_new (SwPlaces, 1);

  places->list = g_array_new (FALSE, FALSE, sizeof (Place));
  return places;
}

void
sw_places_free (SwPlaces *places)
{
  if (places == NULL)
    return;
  g_array_unref (places->list);
  g_free (places);
}

void
sw_places_add (SwPlaces *places, SwQuantityName quantity, SwFactCode fact, GtkWidget *row)
{
  const Place place = { quantity, fact, row };

  g_array_append_val (places->list, place);
}

GtkWidget *
sw_places_find (SwPlaces *places, const GError *error)
{
  const SwFault *fault = sw_fault_get (error);
  const SwFact *fact = sw_workflow_error_get_fact (error);

  for (guint i = 0; i < places->list->len; i++)
    {
      const Place *place = &g_array_index (places->list, Place, i);
      gboolean by_fault = fault != NULL && place->quantity != SW_QUANTITY_NONE
                          && place->quantity == fault->quantity;
      gboolean by_fact = fact != NULL && place->fact != SW_FACT_NONE && place->fact == fact->code;

      if ((by_fault || by_fact) && gtk_widget_get_visible (place->row))
        return place->row;
    }
  return NULL;
}

void
sw_places_clear (SwPlaces *places)
{
  for (guint i = 0; i < places->list->len; i++)
    sw_place_set_error (g_array_index (places->list, Place, i).row, NULL);
}

void
sw_place_set_error (GtkWidget *row, const char *text)
{
  if (SW_IS_FORM_ROW (row))
    sw_form_row_set_error (SW_FORM_ROW (row), text);
  else if (SW_IS_CHOICE_ROW (row))
    sw_choice_row_set_error (SW_CHOICE_ROW (row), text);
  else if (SW_IS_ANSWER_ROW (row))
    sw_answer_row_set_error (SW_ANSWER_ROW (row), text);
  else if (SW_IS_REASON_ROW (row))
    sw_reason_row_set_error (SW_REASON_ROW (row), text);
  else if (SW_IS_POINT_LIST (row))
    sw_point_list_set_error (SW_POINT_LIST (row), text);
  else
    g_return_if_reached ();
}
