#include "cli/output_folder.hpp"

#include "cli/output_file.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"

#include <filesystem>
#include <set>
#include <utility>

namespace inkturn {
namespace {

namespace fs = std::filesystem;

bool is_plain(char c) {
    return is_letter_or_digit(c) || c == '-' || c == '_';
}

/// Only its owner may look into one that is made; one that was there stays as it is.
void make_page_folder(const std::string& folder) {
    std::error_code failure;
    const bool is_new = fs::create_directories(folder, failure);
    std::error_code ignored;
    if (fs::exists(folder, ignored) && !fs::is_directory(folder, ignored))
        throw Error("'" + folder +
                    "' is a file, but each candidate gets a page of their own: give -o a folder");
    if (failure)
        throw Error("the folder '" + folder + "' can't be made (" + failure.message() +
                    "): name another one with -o");
    if (is_new)
        fs::permissions(folder, fs::perms::owner_all, failure);
}

OutputOptions output_to(const std::string& folder, const std::string& code, bool force) {
    return {(fs::path(folder) / page_file_name(code)).string(), force};
}

/// Codes that differ in case alone would be one file on some systems.
void check_names_differ(const std::vector<std::string>& codes) {
    std::set<std::string> names;
    for (const std::string& code : codes)
        if (!names.insert(lower_case(page_file_name(code))).second)
            throw Error(
                "candidate " + code +
                " differs from another one in capitals alone, so their pages would be one file on some "
                "computers: give one of them another code ('inkturn candidate rename')");
}

} // namespace

std::string page_file_name(const std::string& code) {
    std::string name;
    for (const char c : code) {
        if (is_plain(c)) {
            name += c;
            continue;
        }
        const auto byte = static_cast<unsigned char>(c);
        name += '%';
        name += "0123456789ABCDEF"[byte >> 4U];
        name += "0123456789ABCDEF"[byte & 15U];
    }
    return name + ".html";
}

PageFolder::PageFolder(const Context& context, std::string folder, bool force,
                       const std::vector<std::string>& codes)
    : context_(context), folder_(std::move(folder)), force_(force) {
    if (folder_ == "-")
        throw Error("a page each needs a folder: name one with -o");
    check_names_differ(codes);
    make_page_folder(folder_);
    for (const std::string& code : codes)
        check_output(context_, output_to(folder_, code, force_), OwnMark::html);
}

void PageFolder::write(const std::string& code, const std::string& html) const {
    write_output(context_, output_to(folder_, code, force_), html, OwnMark::html);
}

} // namespace inkturn
