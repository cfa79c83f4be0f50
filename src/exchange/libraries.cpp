#include "exchange/libraries.hpp"

#include "store/sqlite_version.hpp"

#include <cstdio> // the next header needs it
#include <expat.h>
#include <jpeglib.h>
#include <png.h>
#include <utf8proc.h>
#include <zlib.h>

namespace inkturn {
namespace {

/// It can't be asked when it runs: that of the header.
std::string jpeg_version() {
#ifdef LIBJPEG_TURBO_VERSION_NUMBER
    constexpr int number = LIBJPEG_TURBO_VERSION_NUMBER; // 2001005 is 2.1.5
    return "libjpeg-turbo " + std::to_string(number / 1'000'000) + '.' +
           std::to_string(number / 1'000 % 1'000) + '.' + std::to_string(number % 1'000);
#else
    return "libjpeg " + std::to_string(JPEG_LIB_VERSION);
#endif
}

std::string expat_version() {
    const XML_Expat_Version version = XML_ExpatVersionInfo();
    return std::to_string(version.major) + '.' + std::to_string(version.minor) + '.' +
           std::to_string(version.micro);
}

} // namespace

std::vector<std::string> library_versions() {
    return {std::string("SQLite ") + sqlite_version(),
            std::string("libpng ") + png_get_libpng_ver(nullptr),
            jpeg_version(),
            std::string("zlib ") + zlibVersion(),
            "expat " + expat_version(),
            std::string("utf8proc ") + utf8proc_version()};
}

} // namespace inkturn
