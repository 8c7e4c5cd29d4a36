/* How many jobs are away at once at least, or how many spares are needed, whatever the
 * order of jobs: by counting.
 *
 * Each job is away at least its shortest absence, between its first day and the end
 * of its latest one. For every such first day, the jobs whose own is that day or later
 * are added in the order of their ends. In the days up to an end, one spare can serve
 * only as many absences as fit one after the other, taken as long as the shortest,
 * and their lengths add up to no more than those days. Of spares, a piece that may go
 * bare counts only when the turns without a spare that its boat can give are used up;
 * it then counts as one absence of any of her pieces so far. */
#include "rota/slots_inside.h"

/* The least time a job needs: its shortest absence, and the end of its latest. */
struct stay {
	day_t first;
	day_t end;
	int shortest;
};

static struct stay
stay_of(const struct slot_search *search, size_t job)
{
	const struct slot_job *made = &search->problem->jobs[job];
	struct stay stay = {made->first, made->first, 0};
	for (size_t i = 0; i < made->place_count; i++) {
		for (day_t day = made->first; day <= made->last; day++) {
			day_t collect =
			    search->collects[slot_at(search, made->places[i], day)];
			if (collect == DAY_NONE || slot_is_busy(made, day, collect)) {
				continue;
			}
			int length = collect - day;
			stay.shortest =
			    stay.shortest == 0 ? length : LESSER(stay.shortest, length);
			stay.end = day_max(stay.end, collect);
		}
	}
	return stay;
}

/* How many spares so many absences need between two days, into which the shortest fits:
 * by the number that fit one after the other, and by the sum of their lengths. */
static size_t
need_between(size_t count, long long sum, int shortest, long long days)
{
	long long each = days / shortest;
	long long by_count = ((long long)count + each - 1) / each;
	long long by_sum = (sum + days - 1) / days;
	return (size_t)GREATER(by_count, by_sum);
}

static int
compare_stays(const void *a, const void *b)
{
	return ORDER(((const struct stay *)a)->end, ((const struct stay *)b)->end);
}

/* The most that is needed between the first day of one stay and the end of any. */
static size_t
bound_from(const struct stay *stays, size_t count, day_t first)
{
	size_t most = 0;
	size_t inside = 0;
	long long sum = 0;
	int shortest = 0;
	for (size_t i = 0; i < count; i++) {
		const struct stay *stay = &stays[i];
		if (stay->first < first) {
			continue;
		}
		inside++;
		sum += stay->shortest;
		shortest =
		    shortest == 0 ? stay->shortest : LESSER(shortest, stay->shortest);
		size_t need = need_between(inside, sum, shortest, stay->end - first);
		most = GREATER(most, need);
	}
	return most;
}

/* The jobs of one boat that may be bare, as far as they have been counted. */
struct bare_count {
	size_t count;
	day_t first;
	day_t end;
	int shortest;
	int most;
	size_t excess; /* so many of them must have a spare */
};

/* Counts one more job that may be bare, in the order of last days. Up to that day so
 * many can go one after the other in each of the places that she can do without;
 * when there are more, a spare must stand in for one of them. True when this job
 * makes one more such spare job. */
static bool
count_bare(struct bare_count *bare, const struct slot_job *job, struct stay stay)
{
	bool begun = bare->count > 0;
	bare->count++;
	bare->first = begun ? day_min(bare->first, stay.first) : stay.first;
	bare->end = begun ? day_max(bare->end, stay.end) : stay.end;
	bare->shortest = begun ? LESSER(bare->shortest, stay.shortest) : stay.shortest;
	bare->most = GREATER(bare->most, job->bare_most);
	size_t rounds = (size_t)((job->last - bare->first) / bare->shortest) + 1;
	size_t can_go = rounds * (size_t)bare->most;
	bool more = bare->count > can_go && bare->count - can_go > bare->excess;
	bare->excess += more;
	return more;
}

/* The stays of the first `count` jobs: of all, or of those that must have a spare.
 * Returns how many. */
static size_t
fill_stays(const struct slot_search *search, size_t count, bool covered,
    struct bare_count *bare, struct stay *stays)
{
	size_t used = 0;
	for (size_t i = 0; i < count; i++) {
		size_t index = search->order[i];
		const struct slot_job *job = &search->problem->jobs[index];
		struct stay stay = stay_of(search, index);
		struct bare_count *hers = &bare[slot_head(search, index)];
		if (stay.shortest == 0) {
			continue;
		}
		if (!covered || job->bare_most == 0) {
			stays[used++] = stay;
		} else if (count_bare(hers, job, stay)) {
			stays[used++] =
			    (struct stay){hers->first, hers->end, hers->shortest};
		}
	}
	return used;
}

static int
compare_days(const void *a, const void *b)
{
	return ORDER(*(const day_t *)a, *(const day_t *)b);
}

size_t
slot_bound(const struct slot_search *search, size_t count, bool covered)
{
	SCOPED_ARENA arena = {0};
	struct stay *stays = ARENA_MANY(&arena, struct stay, count);
	struct bare_count *bare =
	    ARENA_MANY(&arena, struct bare_count, search->problem->job_count);
	size_t most = 0;
	size_t used = fill_stays(search, count, covered, bare, stays);
	day_t *firsts = ARENA_MANY(&arena, day_t, used);
	for (size_t i = 0; i < used; i++) {
		firsts[i] = stays[i].first;
	}
	ARRAY_SORT(firsts, used, compare_days);
	ARRAY_SORT(stays, used, compare_stays);
	for (size_t i = 0; i < used; i++) {
		if (i == 0 || firsts[i] != firsts[i - 1]) {
			size_t need = bound_from(stays, used, firsts[i]);
			most = GREATER(most, need);
		}
	}
	return most;
}
