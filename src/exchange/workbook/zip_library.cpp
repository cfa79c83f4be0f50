#include "exchange/workbook/zip_library.hpp"

#include "inkturn/base/error.hpp"

#include <dlfcn.h>
#include <string>

namespace inkturn {
namespace {

/// The one that this was built with, or the same by the name that it has in Debian 13 and upstream, and in
/// Debian 12.
void* loaded_zip() {
    for (const char* name : {INKTURN_LIBZIP, "libzip.so.5", "libzip.so.4"})
        if (void* library = dlopen(name, RTLD_NOW | RTLD_LOCAL))
            return library;
    throw Error("reading a workbook needs the library " INKTURN_LIBZIP
                ": install libzip, or save the sheet as CSV");
}

template <typename Function>
void find_in(void* library, const char* name, Function*& function) {
    function = reinterpret_cast<Function*>(dlsym(library, name));
    if (function == nullptr)
        throw Error(std::string("the library " INKTURN_LIBZIP " lacks ") + name +
                    ": install libzip 1.7 or newer, or save the sheet as CSV");
}

} // namespace

ZipLibrary::ZipLibrary() {
    void* const library = loaded_zip();
    find_in(library, "zip_discard", discard);
    find_in(library, "zip_error_fini", error_fini);
    find_in(library, "zip_error_init", error_init);
    find_in(library, "zip_error_strerror", error_strerror);
    find_in(library, "zip_fclose", fclose);
    find_in(library, "zip_file_strerror", file_strerror);
    find_in(library, "zip_fopen_index", fopen_index);
    find_in(library, "zip_fread", fread);
    find_in(library, "zip_get_num_entries", get_num_entries);
    find_in(library, "zip_name_locate", name_locate);
    find_in(library, "zip_open_from_source", open_from_source);
    find_in(library, "zip_source_buffer_create", source_buffer_create);
    find_in(library, "zip_source_free", source_free);
    find_in(library, "zip_stat_index", stat_index);
    find_in(library, "zip_stat_init", stat_init);
    find_in(library, "zip_strerror", strerror);
}

const ZipLibrary& zip_library() {
    static const ZipLibrary library;
    return library;
}

} // namespace inkturn
