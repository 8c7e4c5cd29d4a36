/* Turns the table of trips within weekly limits into a problem of weeks and stops. */
#include "winter/limits_inside.h"

/* Columns are ordered by stop and day. */
static void
fill_weeks(const struct errand_table *table, struct limits *limits)
{
	for (size_t i = 0; i < table->column_count; i++) {
		const struct errand_column *column = &table->columns[i];
		bool limited = table->stops[column->stop].station->weekly_pieces > 0;
		bool same_stop = i > 0 && column[-1].stop == column->stop;
		if (!same_stop) {
			limits->stops[limits->stop_count++] =
			    (struct limit_stop){.first = limits->week_count,
				.trip_minor = column->open.minor};
		}
		struct limit_stop *stop = &limits->stops[limits->stop_count - 1];
		stop->row = same_stop ? stop->row : i + limits->stop_count - 1;
		if (!same_stop || !limited || column[-1].week != column->week) {
			int64_t room = table_room(table, i);
			limits->weeks[limits->week_count++] =
			    (struct limit_week){.first = i,
				.stop = limits->stop_count - 1,
				.trip_minor = column->open.minor,
				.room = GREATER(room, 0)};
			stop->count++;
		}
		stop->columns++;
		limits->weeks[limits->week_count - 1].count++;
		limits->week_of[i] = limits->week_count - 1;
		limits->unit = common_measure(limits->unit, column->open.minor);
	}
}

static void
fill_classes(const struct errand_table *table, struct limits *limits)
{
	limits->units = true;
	for (size_t j = 0; j < table->class_count; j++) {
		const struct errand_class *class = &table->classes[j];
		limits->count[j] = (int64_t) class->count;
		limits->pieces[j] = class->thing->pieces;
		limits->units = limits->units && class->thing->pieces == 1;
		for (size_t s = 0; s < limits->stop_count; s++) {
			limits->least[j * limits->stop_count + s] = WORTH_NEVER;
		}
		for (size_t i = 0; i < table->column_count; i++) {
			struct worth cost = table_cost(table, j, i);
			int64_t one = worth_never(cost) ? WORTH_NEVER
							: cost.minor / limits->count[j];
			size_t stop = limits->weeks[limits->week_of[i]].stop;
			int64_t *least = &limits->least[j * limits->stop_count + stop];
			limits->one[j * table->column_count + i] = one;
			limits->serves[i * table->class_count + j] = one < WORTH_NEVER;
			*least = LESSER(one, *least);
			limits->unit =
			    common_measure(limits->unit, one < WORTH_NEVER ? one : 0);
		}
	}
	limits->unit = GREATER(limits->unit, 1);
}

/* The sum of what all things and trips cost where each is dearest. */
static double
dearest(const struct errand_table *table, const struct limits *limits)
{
	double sum = 0;
	for (size_t i = 0; i < table->column_count; i++) {
		sum += (double)table->columns[i].open.minor;
	}
	for (size_t j = 0; j < table->class_count; j++) {
		int64_t most = 0;
		for (size_t i = 0; i < table->column_count; i++) {
			int64_t one = limits->one[j * table->column_count + i];
			most = one < WORTH_NEVER && one > most ? one : most;
		}
		sum += (double)most * (double)limits->count[j];
	}
	return sum;
}

bool
limits_too_large(const struct limits *limits)
{
	const size_t most_weeks = 600;
	double things = 0;
	for (size_t j = 0; j < limits->classes; j++) {
		things += (double)(limits->count[j] * limits->pieces[j]);
	}
	return limits->week_count > most_weeks ||
	       things * (double)limits->most_charge > (double)WORTH_NEVER;
}

void
limits_make(const struct errand_table *table, struct arena *scratch, struct limits *out)
{
	size_t columns = table->column_count + 1;
	size_t classes = table->class_count + 1;
	*out = (struct limits){
	    .classes = table->class_count,
	    .columns = table->column_count,
	    .stops = ARENA_MANY(scratch, struct limit_stop, columns),
	    .weeks = ARENA_MANY(scratch, struct limit_week, columns),
	    .week_of = ARENA_MANY(scratch, size_t, columns),
	    .count = ARENA_MANY(scratch, int64_t, classes),
	    .pieces = arena_alloc(scratch, classes * sizeof *out->pieces),
	    .one = ARENA_MANY(scratch, int64_t, classes * columns),
	    .serves = arena_alloc(scratch, classes * columns),
	};
	fill_weeks(table, out);
	out->least = ARENA_MANY(scratch, int64_t, classes * (out->stop_count + 1));
	fill_classes(table, out);
	double most = dearest(table, out) * CHARGE_SCALE;
	out->most_charge = most < (double)WORTH_NEVER ? (int64_t)most : WORTH_NEVER;
}
