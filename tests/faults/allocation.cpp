// Loaded before the C library: the allocation that INKTURN_FAIL_AT names fails, from 1 on, and with
// INKTURN_FAIL_ON set all after it. At the end the number of them is written to INKTURN_COUNT.

#include <atomic>
#include <cerrno>
#include <cstddef>
#include <cstdio>
#include <cstdlib>

extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* old, std::size_t size);
}

namespace {

std::atomic<long> count{0};
long fail_at = 0;
bool fails_on = false;

/// Before the program's own constructors.
__attribute__((constructor)) void read_what_fails() {
    const char* const at = std::getenv("INKTURN_FAIL_AT");
    fails_on = std::getenv("INKTURN_FAIL_ON") != nullptr;
    count = 0;
    fail_at = at ? std::atol(at) : 0;
}

__attribute__((destructor)) void write_count() {
    fail_at = 0;
    const char* const name = std::getenv("INKTURN_COUNT");
    const long all = count;
    if (std::FILE* const file = name ? std::fopen(name, "w") : nullptr) {
        std::fprintf(file, "%ld\n", all);
        std::fclose(file);
    }
}

bool fails() {
    const long number = ++count;
    if (fail_at == 0 || number < fail_at || (number > fail_at && !fails_on))
        return false;
    errno = ENOMEM;
    return true;
}

} // namespace

extern "C" {

void* malloc(std::size_t size) {
    return fails() ? nullptr : __libc_malloc(size);
}

void* calloc(std::size_t count_of, std::size_t size) {
    return fails() ? nullptr : __libc_calloc(count_of, size);
}

void* realloc(void* old, std::size_t size) {
    return fails() ? nullptr : __libc_realloc(old, size);
}
}
