#include "exchange/csv/encoding.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <istream>

namespace inkturn {
namespace {

constexpr std::size_t bytes_to_recognise = 4;

/// Windows-1252 from 0x80 to 0x9F; 0: no character.
constexpr std::array<char16_t, 32> windows_1252_specials{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

constexpr std::string_view nul_message = "a NUL byte: this is not a text file; save it as CSV in UTF-8";

unsigned char byte_at(std::string_view bytes, std::size_t i) {
    return static_cast<unsigned char>(bytes[i]);
}

std::string in_hex(unsigned char byte) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    return {'0', 'x', digits[byte >> 4], digits[byte & 0xF]};
}

/// How many bytes at the start are ASCII and not NUL, in steps of eight.
std::size_t plain_octets(std::string_view bytes) {
    constexpr std::uint64_t ones = 0x0101010101010101;
    constexpr std::uint64_t high_bits = 0x8080808080808080;
    std::size_t i = 0;
    for (; i + 8 <= bytes.size(); i += 8) {
        std::uint64_t octet;
        std::memcpy(&octet, bytes.data() + i, 8);
        // A NUL borrows into its high bit; with neither a NUL nor a high bit nothing is borrowed.
        if ((((octet - ones) | octet) & high_bits) != 0)
            break;
    }
    return i;
}

bool is_high_surrogate(char32_t unit) {
    return unit >= 0xD800 && unit < 0xDC00;
}
bool is_low_surrogate(char32_t unit) {
    return unit >= 0xDC00 && unit < 0xE000;
}

bool starts_with(std::string_view bytes, std::string_view start) {
    return bytes.substr(0, start.size()) == start;
}

/// For a file that begins as XML does, by its first few hundred bytes.
std::string save_in_another_form(std::string_view head) {
    const std::string kind = contains(head, "<office:document") ? ".fods" : ".xml";
    return "this is a workbook in one piece (" + kind +
           "): open it in the spreadsheet program, save it as .xlsx or .ods and use that file";
}

/// Two characters below U+0100 as UTF-16: every other byte is NUL.
bool looks_like_utf_16(std::string_view bytes) {
    if (bytes.size() < 4)
        return false;
    const auto is_nul = [&](std::size_t i) { return bytes[i] == '\0'; };
    return is_nul(0) == is_nul(2) && is_nul(1) == is_nul(3) && is_nul(0) != is_nul(1);
}

} // namespace

TextSource::TextSource(std::istream& in, const CsvOptions& options, std::string_view start)
    : in_(in),
      options_(options),
      bytes_(std::max(options.chunk, bytes_to_recognise) + bytes_to_recognise),
      count_(start.size()),
      total_(start.size()) {
    std::copy(start.begin(), start.end(), bytes_.begin());
}

std::string_view TextSource::next() {
    std::string_view piece;
    while (piece.empty() && !fault_ && !at_end_) {
        read_bytes();
        if (encoding_ == Encoding::unknown && !fault_)
            recognise();
        if (!fault_)
            piece = decode({bytes_.data() + used_, count_ - used_});
    }
    return piece;
}

/// Keeps what the last piece left of a character and reads on after it.
void TextSource::read_bytes() {
    std::copy(bytes_.data() + used_, bytes_.data() + count_, bytes_.data());
    count_ -= used_;
    used_ = 0;
    const std::size_t wanted =
        encoding_ == Encoding::unknown ? std::max(options_.chunk, bytes_to_recognise) : options_.chunk;
    in_.read(bytes_.data() + count_, static_cast<std::streamsize>(wanted));
    const auto got = static_cast<std::size_t>(in_.gcount());
    count_ += got;
    total_ += got;
    at_end_ = got < wanted;
    if (in_.bad())
        stop("the file can't be read", true);
    else if (options_.progress)
        options_.progress(total_);
}

void TextSource::recognise() {
    const std::string_view bytes(bytes_.data(), count_);
    const auto is = [&](Encoding encoding, std::size_t mark) {
        encoding_ = encoding;
        used_ = mark;
    };
    if (starts_with(bytes, "\xEF\xBB\xBF"))
        is(Encoding::utf_8, 3);
    else if (starts_with(bytes, "\xFF\xFE"))
        is(Encoding::utf_16_le, 2);
    else if (starts_with(bytes, "\xFE\xFF"))
        is(Encoding::utf_16_be, 2);
    else if (starts_with(bytes, "<?xm"))
        stop(save_in_another_form(head()), true);
    else if (looks_like_utf_16(bytes))
        stop("this looks like UTF-16 without a byte order mark: save the file as UTF-8", true);
    else
        is(options_.windows_1252 ? Encoding::windows_1252 : Encoding::utf_8, 0);
}

/// The first bytes of a file that is not read any further.
std::string TextSource::head() {
    constexpr std::size_t most = 512;
    std::string head(bytes_.data(), std::min(count_, most));
    const std::size_t got = head.size();
    head.resize(most);
    in_.read(head.data() + got, static_cast<std::streamsize>(most - got));
    head.resize(got + static_cast<std::size_t>(in_.gcount()));
    return head;
}

std::string_view TextSource::decode(std::string_view bytes) {
    switch (encoding_) {
    case Encoding::utf_16_le:
    case Encoding::utf_16_be:
        return decode_utf_16(bytes);
    case Encoding::windows_1252:
        return decode_windows_1252(bytes);
    default:
        return decode_utf_8(bytes);
    }
}

std::string_view TextSource::decode_utf_8(std::string_view bytes) {
    std::size_t i = 0;
    while (i < bytes.size()) {
        i += plain_octets(bytes.substr(i));
        const std::size_t stretch = std::min(bytes.size(), i + 8);
        while (i < stretch) {
            const unsigned char lead = byte_at(bytes, i);
            const Utf8Sequence sequence = utf8_sequence(bytes.substr(i));
            if (lead != 0 && sequence == Utf8Sequence::whole) {
                i += utf8_length(bytes[i]);
                continue;
            }
            if (lead == 0)
                stop(std::string(nul_message));
            else if (sequence == Utf8Sequence::bad || at_end_)
                stop("the byte " + in_hex(lead) +
                     " is not UTF-8 here: save the file as UTF-8, or use --encoding windows-1252");
            used_ += i;
            return bytes.substr(0, i);
        }
    }
    used_ += i;
    return bytes.substr(0, i);
}

std::string_view TextSource::decode_utf_16(std::string_view bytes) {
    const std::size_t high = encoding_ == Encoding::utf_16_be ? 0 : 1;
    const auto unit_at = [&](std::size_t i) {
        return static_cast<char32_t>(byte_at(bytes, i + high) << 8 | byte_at(bytes, i + 1 - high));
    };
    text_.clear();
    std::size_t i = 0;
    while (i + 2 <= bytes.size() && !fault_) {
        const char32_t unit = unit_at(i);
        if (unit == 0) {
            stop(std::string(nul_message));
        } else if (is_high_surrogate(unit) && i + 4 <= bytes.size() && is_low_surrogate(unit_at(i + 2))) {
            append_utf8(text_, 0x10000 + ((unit - 0xD800) << 10) + (unit_at(i + 2) - 0xDC00));
            i += 4;
        } else if (is_high_surrogate(unit) && i + 4 > bytes.size()) {
            break;
        } else if (is_high_surrogate(unit) || is_low_surrogate(unit)) {
            stop("half of a UTF-16 pair is missing here: save the file as UTF-8");
        } else {
            append_utf8(text_, unit);
            i += 2;
        }
    }
    if (at_end_ && i < bytes.size() && !fault_)
        stop("the file ends inside a UTF-16 character: save it as UTF-8");
    used_ += i;
    return text_;
}

void TextSource::look_for_utf_8(std::string_view bytes) {
    const std::string text = cut_.append(bytes);
    cut_.clear();
    for (std::size_t i = 0; i < text.size() && !has_other_;) {
        const std::string_view rest = std::string_view(text).substr(i);
        const Utf8Sequence sequence = utf8_sequence(rest);
        has_other_ = sequence == Utf8Sequence::bad;
        if (sequence == Utf8Sequence::cut) {
            cut_ = rest;
            return;
        }
        const std::size_t length = std::max<std::size_t>(utf8_length(text[i]), 1);
        has_utf_8_ = has_utf_8_ || length > 1;
        i += length;
    }
}

std::string_view TextSource::decode_windows_1252(std::string_view bytes) {
    if (!has_other_)
        look_for_utf_8(bytes);
    text_.clear();
    std::size_t i = 0;
    for (; i < bytes.size(); ++i) {
        const unsigned char byte = byte_at(bytes, i);
        const bool special = byte >= 0x80 && byte < 0xA0;
        const char32_t c = special ? windows_1252_specials[byte - 0x80U] : byte;
        if (c == 0) {
            stop(byte == 0 ? std::string(nul_message)
                           : "the byte " + in_hex(byte) +
                                 " is not a windows-1252 character: save the file as UTF-8");
            break;
        }
        append_utf8(text_, c);
    }
    used_ += i;
    return text_;
}

void TextSource::stop(std::string message, bool whole_file) {
    fault_ = {whole_file, std::move(message)};
}

} // namespace inkturn
