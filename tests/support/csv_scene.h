/* What tests of the CSV room share: a small catalogue, and rows turned into an inventory
 * without a book. */
#ifndef BECKET_TEST_CSV_SCENE_H
#define BECKET_TEST_CSV_SCENE_H

#include "exchange/inventory_csv.h"

/* A catalogue of a few kinds; NULL when it could not be read. Free with kinds_free. */
struct kinds *csv_scene_kinds(void);

/* Reads back all rows at once into a batch that is zeroed. */
bool csv_scene_all(
    const struct csv_rows *rows, struct csv_batch *out, struct fault *fault);

/* The inventory that importing the rows into an empty book would give. Every row has its
 * tag (see csv_find_tags). Lives in `arena`, its words in the batch. */
void csv_scene_inventory(
    const struct csv_batch *rows, struct arena *arena, struct inventory *out);

/* Writes the column names and every item, as the export does. */
void csv_scene_write(
    const struct inventory *inventory, bool for_spreadsheet, struct text *out);

#endif
