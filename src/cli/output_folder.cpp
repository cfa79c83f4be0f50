#include "cli/output_folder.hpp"

#include "cli/output_file.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <filesystem>

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
        throw Error("'" + folder + "' is a file, and a page each needs a folder: name a folder with -o");
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
void check_names_differ(const std::vector<PageOfCandidate>& pages) {
    std::vector<std::string> names;
    for (const PageOfCandidate& page : pages) {
        std::string name = lower_case(page_file_name(page.code));
        if (std::find(names.begin(), names.end(), name) != names.end())
            throw Error(
                "candidate " + page.code +
                " differs from another one in capitals alone, so their pages would be one file on some "
                "computers: give one of them another code ('inkturn candidate rename')");
        names.push_back(std::move(name));
    }
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

void write_pages(const Context& context, const std::string& folder, bool force,
                 const std::vector<PageOfCandidate>& pages) {
    if (folder == "-")
        throw Error("a page each needs a folder: name one with -o");
    check_names_differ(pages);
    make_page_folder(folder);
    for (const PageOfCandidate& page : pages)
        check_output(context, output_to(folder, page.code, force), OwnMark::html);
    for (const PageOfCandidate& page : pages)
        write_output(context, output_to(folder, page.code, force), page.html, OwnMark::html);
}

} // namespace inkturn
