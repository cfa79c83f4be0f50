#include "view/text/text.hpp"

#include "view/text/table.hpp"

#include "inkturn/base/likeness.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <array>
#include <cstdio>

namespace inkturn {
namespace {

/// Printable ASCII: one column per byte, and safe as it is. Nearly all text is.
bool is_plain(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= 0x20 && c <= 0x7E; });
}

struct Character {
    char32_t code;
    std::size_t length; ///< bytes; the code is meaningless if the bytes are not UTF-8
    bool valid;
};

Character character_at(std::string_view text, std::size_t i) {
    if (const auto character = utf8_character(text, i))
        return {character->code, character->length, true};
    return {static_cast<unsigned char>(text[i]), 1, false};
}

bool is_line_separator(char32_t code) {
    return code == 0x2028 || code == 0x2029;
}

std::string written_out(const char* form, unsigned code) {
    char text[16];
    std::snprintf(text, sizeof text, form, code);
    return text;
}

/// Puts words one after the other, a blank between them, on lines of at most `width`.
class Lines {
  public:
    Lines(std::size_t width, std::size_t indent) : width_(width), indent_(indent) {}

    void add(std::string_view word) {
        const std::size_t needed = columns(word);
        if (used_ > 0 && used_ + 1 + needed > width_) {
            text_ += '\n' + std::string(indent_, ' ');
            used_ = 0;
        } else if (used_ > 0) {
            text_ += ' ';
            ++used_;
        }
        text_ += word;
        used_ += needed;
    }

    /// Items with commas between them; one that is longer than a line is broken.
    void add_items(const std::vector<std::string>& items, std::string_view after) {
        for (std::size_t i = 0; i < items.size(); ++i) {
            const std::string item = items[i] + (i + 1 < items.size() ? "," : std::string(after));
            if (columns(item) > width_)
                add_words(item);
            else
                add(item);
        }
    }

    void add_words(std::string_view text) {
        for (std::size_t start = 0; start < text.size();) {
            const std::size_t end = std::min(text.find(' ', start), text.size());
            add(text.substr(start, end - start));
            start = end + 1;
        }
    }

    std::string text() const { return text_; }

  private:
    std::size_t width_;
    std::size_t indent_;
    std::string text_;
    std::size_t used_ = 0;
};

} // namespace

std::string visible(std::string_view text) {
    if (is_plain(text))
        return std::string(text);
    std::string shown;
    for (std::size_t i = 0; i < text.size();) {
        const Character character = character_at(text, i);
        const auto code = static_cast<unsigned>(character.code);
        if (!character.valid || code < 0x20 || (code >= 0x7F && code < 0xA0))
            shown += written_out("\\x%02x", code);
        else if (is_line_separator(character.code) ||
                 shows_nothing(text.substr(i, character.length), character.code))
            shown += written_out("\\u%04x", code);
        else
            shown += text.substr(i, character.length);
        i += character.length;
    }
    return shown;
}

std::string shell_word(std::string_view text) {
    constexpr std::string_view safe =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-.,:/=+@%";
    std::string shown = visible(text);
    if (!shown.empty() && shown.find_first_not_of(safe) == std::string::npos)
        return shown;
    std::string word = "'";
    for (const char c : shown)
        word += c == '\'' ? std::string(R"('\'')") : std::string(1, c);
    return word + "'";
}

std::string shell_argument(std::string_view text) {
    return (!text.empty() && text.front() == '-' ? "-- " : "") + shell_word(text);
}

std::string count_text(std::size_t count, const std::string& noun) {
    return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

std::string list_text(const std::set<std::string>& names) {
    constexpr std::size_t most = 8;
    std::string list;
    std::size_t named = 0;
    for (const std::string& name : names)
        if (named++ < most)
            list += (list.empty() ? "" : ", ") + name;
    return list + (named > most ? ", ..." : "");
}

std::string decimal(double value, int places) {
    std::array<char, 330> text{}; // the longest a double may be
    std::snprintf(text.data(), text.size(), "%.*f", places, value);
    std::string shown = text.data();
    return shown.find_first_of("123456789") == std::string::npos && shown.front() == '-' ? shown.substr(1)
                                                                                         : shown;
}

std::size_t columns(std::string_view text) {
    if (is_plain(text))
        return text.size();
    std::size_t sum = 0;
    for (std::size_t i = 0; i < text.size();) {
        const Character character = character_at(text, i);
        sum += character.code < 0x80 || !character.valid ? 1 : column_count(character.code);
        i += character.length;
    }
    return sum;
}

std::string fitted(std::string_view text, std::size_t width) {
    const std::size_t needed = columns(text);
    if (needed <= width)
        return std::string(text) + std::string(width - needed, ' ');
    const std::string_view mark = std::string_view("..").substr(0, std::min<std::size_t>(2, width));
    std::string cut;
    std::size_t used = 0;
    for (std::size_t i = 0; i < text.size();) {
        const Character character = character_at(text, i);
        const std::string_view bytes = text.substr(i, character.length);
        if (used + columns(bytes) + mark.size() > width)
            break;
        cut += bytes;
        used += columns(bytes);
        i += character.length;
    }
    cut += mark;
    return cut + std::string(width - used - mark.size(), ' ');
}

std::string right_aligned(std::string_view text, std::size_t width) {
    return std::string(width - std::min(width, text.size()), ' ').append(text);
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
    Lines lines(width, indent);
    lines.add_words(text);
    return lines.text();
}

std::string wrapped_list(const std::vector<std::string>& items, std::size_t width, std::size_t indent) {
    Lines lines(width, indent);
    lines.add_items(items, "");
    return lines.text();
}

std::string list_line(std::string_view before, const std::vector<std::string>& items,
                      std::string_view after) {
    constexpr std::size_t indent = 2;
    Lines lines(text_width() - indent, indent);
    lines.add_words(before);
    lines.add_items(items, after);
    return lines.text() + '\n';
}

std::string text_line(std::string_view text) {
    constexpr std::size_t indent = 2;
    return wrapped(text, text_width() - indent, indent) + '\n';
}

std::string joined(const std::vector<std::string>& items, std::string_view last_joint) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i > 0)
            text += i + 1 < items.size() ? ", " : last_joint;
        text += items[i];
    }
    return text;
}

std::string counted_marks(Marks marks) {
    return count_text(static_cast<std::size_t>(marks.count()), "mark");
}

std::string marks_number(Marks marks) {
    return std::to_string(marks.count());
}

std::string with_sign(MarksDifference marks) {
    return (marks.count() < 0 ? "" : "+") + std::to_string(marks.count());
}

std::string short_name(std::string_view name) {
    constexpr std::size_t max_columns = 40;
    const std::string shown = visible(name);
    return columns(shown) > max_columns ? fitted(shown, max_columns) : shown;
}

std::string one_decimal(double value) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.1f", value);
    return text.data();
}

} // namespace inkturn
