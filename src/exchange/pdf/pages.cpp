#include "exchange/pdf/pages.hpp"

#include "exchange/pdf/program.hpp"
#include "exchange/pdf/scan.hpp"
#include "exchange/picture/octets.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <optional>

namespace inkturn {
namespace {

constexpr Points max_side = points(Millimetres(600));
constexpr std::size_t max_page_words = 400'000;
constexpr std::size_t max_word_bytes = 4096; ///< bytes; a line of dots is one word
constexpr int copying_forbidden = 3;         ///< pdftotext's exit code

constexpr const char* by_hand = "'inkturn paper add'";

/// The value of an attribute in a tag, such as `xMin="72.5"`.
std::optional<Points> points_in(std::string_view tag, const std::string& attribute) {
    const std::string before = " " + attribute + "=\"";
    const std::size_t found = tag.find(before);
    if (found == std::string_view::npos)
        return std::nullopt;
    const char* const end = tag.data() + tag.size();
    double number = 0;
    const auto [after, failure] = std::from_chars(tag.data() + found + before.size(), end, number);
    if (failure != std::errc() || after == end || *after != '"' || !std::isfinite(number))
        return std::nullopt;
    return Points(number);
}

std::optional<PrintedBox> box_in(std::string_view tag) {
    const auto left = points_in(tag, "xMin");
    const auto top = points_in(tag, "yMin");
    const auto right = points_in(tag, "xMax");
    const auto bottom = points_in(tag, "yMax");
    if (!left || !top || !right || !bottom || *right < *left || *bottom < *top)
        return std::nullopt;
    for (const Points edge : {*left, *top, *right, *bottom})
        if (abs(edge) > 2 * max_side)
            return std::nullopt;
    return PrintedBox{*left, *top, *right, *bottom};
}

struct Entity {
    std::string_view name;
    std::string_view meaning;
};
constexpr std::array<Entity, 5> entities{
    {{"amp", "&"}, {"lt", "<"}, {"gt", ">"}, {"quot", "\""}, {"apos", "'"}}};

/// The character that the text between & and ; stands for; nothing if that is not known.
std::optional<std::string> meaning_of(std::string_view entity) {
    for (const Entity& known : entities)
        if (known.name == entity)
            return std::string(known.meaning);
    if (!begins_with(entity, "#"))
        return std::nullopt;
    const int base = begins_with(entity, "#x") ? 16 : 10;
    const char* const start = entity.data() + (base == 16 ? 2 : 1);
    const char* const end = entity.data() + entity.size();
    std::uint32_t code = 0;
    const auto [after, failure] = std::from_chars(start, end, code, base);
    if (failure != std::errc() || after != end)
        return std::nullopt;
    std::string meaning;
    append_utf8(meaning, code);
    return meaning;
}

/// The text with its entities resolved; an & that doesn't start one stays.
std::string resolved(std::string_view text) {
    constexpr std::size_t max_entity_length = 10;
    std::string plain;
    while (!text.empty()) {
        const std::size_t ampersand = std::min(text.find('&'), text.size());
        plain += text.substr(0, ampersand);
        text.remove_prefix(ampersand);
        const std::size_t end = text.substr(0, max_entity_length + 2).find(';');
        if (const auto meaning =
                end == std::string_view::npos ? std::nullopt : meaning_of(text.substr(1, end - 1))) {
            plain += *meaning;
            text.remove_prefix(end + 1);
        } else {
            plain += text.substr(0, 1);
            text.remove_prefix(std::min<std::size_t>(1, text.size()));
        }
    }
    return plain;
}

/// Letters joined in one sign, and dashes, where a document of TeX's gives their place in its fonts (encoding
/// T1) in place of a character.
constexpr std::array<Entity, 7> tex_signs{{{"\x15", "\xE2\x80\x93"},
                                           {"\x16", "\xE2\x80\x94"},
                                           {"\x1B", "ff"},
                                           {"\x1C", "fi"},
                                           {"\x1D", "fl"},
                                           {"\x1E", "ffi"},
                                           {"\x1F", "ffl"}}};

/// Well-formed UTF-8 without control characters (ASCII, C1) and blanks, but with what TeX's stand for.
std::string without_control_characters(std::string_view text) {
    std::string kept;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto sign = std::find_if(tex_signs.begin(), tex_signs.end(),
                                       [&](const Entity& known) { return known.name.front() == text[i]; });
        if (sign != tex_signs.end())
            kept += sign->meaning;
        else if (byte == 0xC2 && static_cast<unsigned char>(text[i + 1]) <= 0xA0)
            ++i;
        else if (byte > ' ' && byte != 0x7F)
            kept += text[i];
    }
    return kept;
}

/// Goes through the text from tag to tag.
class Tags {
  public:
    explicit Tags(std::string_view text) : left_(text) {}

    /// The next tag, without its brackets; empty at the end.
    std::string_view next() {
        left_.remove_prefix(std::min(left_.find('<'), left_.size()));
        const std::size_t end = left_.find('>');
        if (end == std::string_view::npos)
            return {};
        const std::string_view tag = left_.substr(1, end - 1);
        left_.remove_prefix(end + 1);
        return tag.empty() ? std::string_view("?") : tag;
    }

    /// The text from here to the next tag.
    std::string_view text() const { return left_.substr(0, left_.find('<')); }

  private:
    std::string_view left_;
};

PrintedPage page_in(std::string_view tag, std::size_t number) {
    const auto width = points_in(tag, "width");
    const auto height = points_in(tag, "height");
    const std::string which = "page " + std::to_string(number);
    if (!width || !height || *width <= Points(0) || *height <= Points(0))
        throw Error(which + " has no size: the file is damaged; use a fresh copy");
    if (std::max(*width, *height) > max_side)
        throw Error(which + " is larger than 600 mm: too large for a page of a paper");
    return {*width, *height, {}};
}

/// A page shown turned is stated with its unturned size, but its words are where they are shown.
void turn_with_its_words(PrintedPage& page) {
    constexpr Points slack{1};
    Points right, bottom;
    for (const PrintedWord& word : page.words) {
        right = std::max(right, word.box.right);
        bottom = std::max(bottom, word.box.bottom);
    }
    const bool fits = right <= page.width + slack && bottom <= page.height + slack;
    if (!fits && right <= page.height + slack && bottom <= page.width + slack)
        std::swap(page.width, page.height);
}

[[noreturn]] void refuse_page_count(std::size_t pages) {
    throw Error("the document has " + std::to_string(pages) + " pages, and a paper may have " +
                std::to_string(max_pages) + ": print only the paper's pages to a PDF and use that");
}

/// The bytes at the start of the file.
std::string head_of(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in)
        throw Error(std::string("the file can't be read: ") + std::strerror(errno));
    std::string head(1024, '\0');
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    head.resize(static_cast<std::size_t>(in.gcount()));
    return head;
}

void check_is_pdf(const std::string& file) {
    const std::string head = head_of(file);
    if (head.empty())
        throw Error("the file is empty: use a fresh copy");
    if (head.find("%PDF-") == std::string::npos)
        throw Error(std::string("this is not a PDF: save it as PDF, or type the parts with ") + by_hand);
}

[[noreturn]] void refuse_document(const ProgramResult& result) {
    if (result.messages.find("Incorrect password") != std::string::npos)
        throw Error("the document is locked with a password: save a copy without one and use that");
    if (result.code == copying_forbidden)
        throw Error(std::string("the document does not allow its text to be copied: type the parts with ") +
                    by_hand);
    throw Error("the PDF is damaged or cut short: use a fresh copy");
}

/// Whether poppler reports an error in a document that it could read.
bool tells_of_damage(const std::string& messages) {
    return messages.find("Syntax Error") != std::string::npos;
}

} // namespace

void check_may_be_pdf(const std::string& file) {
    namespace fs = std::filesystem;
    std::error_code unknown;
    const fs::file_status status = fs::status(file, unknown);
    if (!fs::exists(status) || fs::is_directory(status))
        return; // said when it is opened
    if (!fs::is_regular_file(status))
        throw Error("a PDF is read more than once, and this is no regular file: save it in one");
    if (fs::file_size(file, unknown) > max_pdf_bytes && !unknown)
        throw Error("the file is larger than " + std::to_string(max_pdf_bytes / 1'000'000) +
                    " MB: print only the paper's pages to a PDF and use that");
}

std::vector<PrintedPage> parse_printed_pages(std::string_view text) {
    if (!is_utf8(text))
        throw Error("the text of the document is not UTF-8: the file is damaged; use a fresh copy");
    std::vector<PrintedPage> pages;
    std::size_t page_count = 0;
    std::size_t word_count = 0;
    Tags tags(text);
    for (std::string_view tag = tags.next(); !tag.empty(); tag = tags.next()) {
        if (begins_with(tag, "page ")) {
            if (++page_count <= max_pages)
                pages.push_back(page_in(tag, page_count));
        } else if (begins_with(tag, "word ") && !pages.empty() && page_count <= max_pages) {
            if (++word_count > max_page_words)
                throw Error("the document has more words than a paper: use only the paper's pages");
            const auto box = box_in(tag);
            const std::string_view written = tags.text();
            if (!box || written.size() > max_word_bytes)
                continue;
            std::string word = without_control_characters(resolved(written));
            if (!word.empty())
                pages.back().words.push_back({std::move(word), *box});
        }
    }
    if (page_count > max_pages)
        refuse_page_count(page_count);
    for (PrintedPage& page : pages)
        turn_with_its_words(page);
    return pages;
}

PdfText read_pdf(const std::string& file, const PageCount& count) {
    check_may_be_pdf(file);
    check_is_pdf(file);
    const ProgramResult result =
        run_program({"pdftotext", "-bbox-layout", shown_page_only, "-enc", "UTF-8", file_argument(file), "-"},
                    poppler_package);
    if (result.code != 0)
        refuse_document(result);
    PdfText text{parse_printed_pages(result.output), tells_of_damage(result.messages)};
    const auto is_empty = [](const PrintedPage& page) { return page.words.empty(); };
    if (text.pages.empty())
        throw Error("the document has no pages: the file is damaged; use a fresh copy");
    if (!std::all_of(text.pages.begin(), text.pages.end(), is_empty))
        return text;
    text.pages = read_scanned_pages(file, std::move(text.pages), count);
    text.is_scan = true;
    if (std::all_of(text.pages.begin(), text.pages.end(), is_empty))
        throw Error("the document has no text, and none can be read from its pictures: type the parts with " +
                    std::string(by_hand));
    return text;
}

} // namespace inkturn
