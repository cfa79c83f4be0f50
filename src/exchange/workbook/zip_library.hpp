#pragma once

#include <zip.h>

namespace inkturn {

/// The functions of libzip, which is loaded when the first workbook is read: starting with it would cost
/// every command more than all its other libraries together. The members are named as there, without `zip_`.
struct ZipLibrary {
    /// Throws Error where the library is not there.
    ZipLibrary();

    decltype(&zip_discard) discard;
    decltype(&zip_error_fini) error_fini;
    decltype(&zip_error_init) error_init;
    decltype(&zip_error_strerror) error_strerror;
    decltype(&zip_fclose) fclose;
    decltype(&zip_file_strerror) file_strerror;
    decltype(&zip_fopen_index) fopen_index;
    decltype(&zip_fread) fread;
    decltype(&zip_get_num_entries) get_num_entries;
    decltype(&zip_name_locate) name_locate;
    decltype(&zip_open_from_source) open_from_source;
    decltype(&zip_source_buffer_create) source_buffer_create;
    decltype(&zip_source_free) source_free;
    decltype(&zip_stat_index) stat_index;
    decltype(&zip_stat_init) stat_init;
    decltype(&zip_strerror) strerror;
};

/// Loads it once.
const ZipLibrary& zip_library();

} // namespace inkturn
