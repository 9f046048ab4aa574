// SPDX-License-Identifier: GPL-3.0-or-later
/* The whole job in the library: the demo, and 10 and 100 of it in one job. Prints the median time, the time for each
 * piece against that of the demo (1.0 is linear), and the memory that the result holds. */
#define _POSIX_C_SOURCE 200809L
#include <sys/resource.h>
#include <time.h>

#include "many.h"
#include "tuskwright.h"

static double now_ms(void)
{
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec * 1e3 + (double)time.tv_nsec / 1e6;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median_ms(const char *job, const char *shop, bool papers, int rounds, size_t *bytes)
{
    double times[101];
    for (int i = 0; i < rounds; i++) {
        double start = now_ms();
        tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = shop,
            .shop_bytes = strlen(shop), .shop_name = "shop.yaml", .papers = papers });
        times[i] = now_ms() - start;
        *bytes = tw_result_bytes(result);
        if (tw_result_state(result) != TW_STATE_GOOD) {
            for (size_t j = 0; j < tw_result_finding_count(result) && j < 5; j++) fprintf(stderr, "%s\n", tw_result_finding_at(result, j).what);
            exit(1);
        }
        tw_result_free(result);
    }
    qsort(times, (size_t)rounds, sizeof *times, by_size);
    return times[rounds / 2];
}

int main(int count, char **words)
{
    if (count != 3) { fprintf(stderr, "usage: %s JOB SHOP\n", words[0]); return 2; }
    char *job = many_file(words[1]), *shop = many_file(words[2]);
    if (!job || !shop) { fprintf(stderr, "cannot read %s or %s\n", words[1], words[2]); return 3; }
    static const int sizes[] = { 1, 10, 100 };
    double alone[2] = { 0 };
    puts("whole job in the library (CPU, median)     figures only    for each, x    with papers    for each, x    memory MB");
    for (int i = 0; i < 3; i++) {
        char *many = many_job(job, sizes[i]);
        size_t bytes, ignored;
        int rounds = sizes[i] == 1 ? 101 : sizes[i] == 10 ? 21 : 5;
        double bare = median_ms(many, shop, false, rounds, &ignored), papers = median_ms(many, shop, true, rounds, &bytes);
        if (i == 0) { alone[0] = bare; alone[1] = papers; }
        printf("%4d x the reading table (%4d pieces)   %9.2f ms %14.2f %11.2f ms %14.2f %12.1f\n", sizes[i], sizes[i] * 4, bare, bare / sizes[i] / alone[0],
               papers, papers / sizes[i] / alone[1], (double)bytes / 1048576.0);
        free(many);
    }
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("peak memory of the bench: %.1f MB\n", (double)usage.ru_maxrss / 1024.0);
    free(job);
    free(shop);
    return 0;
}
