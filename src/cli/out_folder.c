// SPDX-License-Identifier: GPL-3.0-or-later
#define _GNU_SOURCE  // renameat2, to exchange two folders in one step
#include "cli/out_folder.h"

#include <assert.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define LIST_NAME "papers.list"
#define LIST_MOST_BYTES (1 << 20)

static bool fail(tw_out_folder *out, const char *doing, const char *path)
{
    out->why = tw_format(out->arena, "%s %s: %s", doing, path, strerror(errno));
    return false;
}

static const char *joined(tw_out_folder *out, const char *folder, const char *name) { return tw_format(out->arena, "%s/%s", folder, name); }

static bool make_folders_above(tw_out_folder *out, const char *path)
{
    char *copy = tw_text_copy(out->arena, tw_text_of(path));
    for (char *slash = strchr(copy + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        if (mkdir(copy, 0777) != 0 && errno != EEXIST) return fail(out, "cannot make the folder", copy);
        *slash = '/';
    }
    return true;
}

static bool has_entries(const char *folder)
{
    DIR *list = opendir(folder);
    bool any = false;
    for (struct dirent *entry; list && (entry = readdir(list)) != NULL;)
        any |= strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    if (list) closedir(list);
    return any;
}

/* The folder itself where a link leads to it: a link that was exchanged for a folder would be lost. "" for a link to nothing. */
static const char *linked_folder(tw_arena *arena, const char *path)
{
    struct stat there;
    if (lstat(path, &there) != 0 || !S_ISLNK(there.st_mode)) return path;
    char *real = realpath(path, NULL);
    const char *copy = tw_text_copy(arena, tw_text_of(real ? real : ""));
    free(real);
    return copy;
}

bool tw_out_begin(tw_out_folder *out, tw_arena *arena, const char *folder)
{
    char *plain = tw_text_copy(arena, tw_text_of(folder));
    size_t length = strlen(plain);
    while (length > 1 && plain[length - 1] == '/') plain[--length] = '\0';
    *out = (tw_out_folder){ .arena = arena, .folder = linked_folder(arena, plain) };
    if (*plain && !*out->folder) {
        out->why = tw_format(arena, "%s is a link to nothing; name a folder for the papers with -o", plain);
        return false;
    }
    struct stat there;
    bool exists = stat(plain, &there) == 0;
    if (exists && !S_ISDIR(there.st_mode)) {
        out->why = tw_format(arena, "%s is a file; name a folder for the papers with -o", plain);
        return false;
    }
    struct stat here;
    if (exists && stat(".", &here) == 0 && here.st_dev == there.st_dev && here.st_ino == there.st_ino) {
        out->why = tw_format(arena, "%s is the folder in which you stand, and a set of papers takes the place of its whole folder; name another with -o", plain);
        return false;
    }
    if (exists && has_entries(plain) && access(joined(out, plain, LIST_NAME), F_OK) != 0) {
        out->why = tw_format(arena, "the folder %s holds files that are not papers of an earlier set; name a new or an empty folder with -o", plain);
        return false;
    }
    if (!make_folders_above(out, out->folder)) return false;
    char *fresh = tw_format(arena, "%s.new-XXXXXX", out->folder);
    if (!mkdtemp(fresh)) return fail(out, "cannot make a folder beside", plain);
    out->fresh = fresh;
    if (chmod(fresh, 0755) != 0) return fail(out, "cannot open up the folder", fresh);
    return true;
}

static bool write_all(int file, const char *bytes, size_t count)
{
    while (count > 0) {
        ssize_t gone = write(file, bytes, count);
        if (gone < 0 && errno == EINTR) continue;
        if (gone <= 0) return false;
        bytes += gone;
        count -= (size_t)gone;
    }
    return true;
}

bool tw_out_write(tw_out_folder *out, const char *name, tw_text bytes)
{
    assert(out->fresh && name[0] != '/' && !strstr(name, ".."));
    const char *path = joined(out, out->fresh, name);
    if (!make_folders_above(out, path)) return false;
    int file = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (file < 0) return fail(out, "cannot write", path);
    bool good = write_all(file, bytes.bytes, bytes.length) && fsync(file) == 0;
    if (!good) fail(out, "cannot write", path);
    if (close(file) != 0 && good) good = fail(out, "cannot write", path);
    tw_array_make_room(out->arena, &out->names, out->count, &out->room, sizeof *out->names);
    out->names[out->count++] = tw_text_copy(out->arena, tw_text_of(name));
    return good;
}

static void remove_tree(tw_out_folder *out, const char *folder)
{
    DIR *list = opendir(folder);
    for (struct dirent *entry; list && (entry = readdir(list)) != NULL;) {
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0) continue;
        const char *path = joined(out, folder, entry->d_name);
        if (unlink(path) != 0) remove_tree(out, path);
    }
    if (list) closedir(list);
    rmdir(folder);
}

/* The list of an old set as one text with a newline before and after each name; "" when it has none. */
static const char *old_list(tw_out_folder *out, const char *folder)
{
    FILE *file = fopen(joined(out, folder, LIST_NAME), "rb");
    if (!file) return "";
    char *text = tw_arena_take(out->arena, LIST_MOST_BYTES + 2, 1);
    text[0] = '\n';
    size_t length = fread(text + 1, 1, LIST_MOST_BYTES, file);
    fclose(file);
    text[length + 1] = '\0';
    return text;
}

/* Moves what is the maker's own from the old folder to the new one, as far down as the folders of a set go. Returns false
 * when something of the maker's stays behind. */
static bool carry_over(tw_out_folder *out, const char *from, const char *to, const char *inside, const char *list)
{
    DIR *entries = opendir(from);
    bool all = entries != NULL;
    for (struct dirent *entry; entries && (entry = readdir(entries)) != NULL;) {
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0) continue;
        const char *name = tw_format(out->arena, "%s%s", inside, entry->d_name), *path = joined(out, from, entry->d_name);
        if (strstr(list, tw_format(out->arena, "\n%s\n", name)) || strcmp(name, LIST_NAME) == 0) continue;
        struct stat there;
        bool folder = lstat(path, &there) == 0 && S_ISDIR(there.st_mode);
        const char *target = joined(out, to, entry->d_name);
        if (folder && strstr(list, tw_format(out->arena, "\n%s/", name))) {
            mkdir(target, 0777);
            all &= carry_over(out, path, target, tw_format(out->arena, "%s/", name), list);
        } else if (renameat2(AT_FDCWD, path, AT_FDCWD, target, RENAME_NOREPLACE) != 0) {
            all = false;
        }
    }
    if (entries) closedir(entries);
    return all;
}

static bool write_list(tw_out_folder *out)
{
    tw_gather all = { .arena = out->arena };
    tw_sink sink = tw_gather_sink(&all);
    for (size_t i = 0; i < out->count; i++) tw_putf(&sink, "%s\n", out->names[i]);
    return tw_out_write(out, LIST_NAME, tw_gathered(&all));
}

/* The two folders change places in one step; where the file system cannot, the old one steps aside first. */
static bool change_places(tw_out_folder *out, const char **old)
{
    if (renameat2(AT_FDCWD, out->fresh, AT_FDCWD, out->folder, RENAME_EXCHANGE) == 0) {
        *old = out->fresh;
        return true;
    }
    *old = tw_format(out->arena, "%s.old-%ld", out->folder, (long)getpid());
    if (rename(out->folder, *old) != 0) return fail(out, "cannot put the papers in the place of", out->folder);
    if (rename(out->fresh, out->folder) == 0) return true;
    fail(out, "cannot put the papers in the place of", out->folder);
    rename(*old, out->folder);
    return false;
}

bool tw_out_finish(tw_out_folder *out)
{
    if (!write_list(out)) return false;
    if (rename(out->fresh, out->folder) == 0) {  // nothing there, or an empty folder
        out->fresh = NULL;
        return true;
    }
    const char *old;
    if (!change_places(out, &old)) return false;
    out->fresh = NULL;
    if (carry_over(out, old, out->folder, "", old_list(out, old))) remove_tree(out, old);
    else out->why = tw_format(out->arena, "files of yours from the earlier set stay in %s", old);
    return true;
}

void tw_out_drop(tw_out_folder *out)
{
    if (out->fresh) remove_tree(out, out->fresh);
    out->fresh = NULL;
}
