#include "exchange/document/strict_json.hpp"

#include "inkturn/base/likeness.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <istream>
#include <vector>

namespace inkturn {
namespace {

constexpr std::size_t longest_document = 128'000'000; ///< bytes; a school of 2,000 has 54 MB

/// JSON of an object, with or without a byte order mark. What begins otherwise may be endless.
bool begins_as_document(std::string_view text) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF")
        text.remove_prefix(3);
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    return first == std::string_view::npos || text[first] == '{';
}

[[noreturn]] void refuse_length() {
    throw Error("the file is longer than " + std::to_string(longest_document / 1'000'000) +
                " MB, more than any export; check that it is the right one");
}

/// Without reading it; false where that can't be known.
bool is_longer_than(std::istream& in, std::size_t bytes) {
    const std::istream::pos_type here = in.tellg();
    in.seekg(0, std::ios::end);
    const std::istream::pos_type end = in.tellg();
    in.clear();
    if (here == std::istream::pos_type(-1) || end == std::istream::pos_type(-1))
        return false;
    in.seekg(here);
    return end - here > static_cast<std::streamoff>(bytes);
}

constexpr std::size_t max_keys = Paper::max_parts;
constexpr std::size_t deepest = 16;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr const char* fresh_export = "; take a fresh export";

std::string place(std::string_view text, std::size_t offset) {
    const std::string_view before = text.substr(0, offset);
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::size_t line_start = before.rfind('\n') + 1; // npos + 1 is 0
    return "line " + std::to_string(line) + ", column " +
           std::to_string(1 + character_count(before.substr(line_start)));
}

/// The length of the well-formed character at the offset; 0 if there is none.
std::size_t character_length(std::string_view text, std::size_t offset) {
    for (std::size_t length = 1; length <= 4 && offset + length <= text.size(); ++length)
        if (is_utf8(text.substr(offset, length)))
            return length;
    return 0;
}

void check_is_utf8(std::string_view text) {
    if (is_utf8(text))
        return;
    std::size_t offset = 0;
    while (const std::size_t length = character_length(text, offset))
        offset += length;
    throw Error(place(text, offset) + ": this is not UTF-8" + fresh_export);
}

/// A place in a text; the furthest one that was reached is kept. The parser takes a bracket without looking
/// at what follows it.
class Place {
  public:
    using iterator_category = std::forward_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    Place(const char* at, const char*& reached) : at_(at), reached_(&reached) {}
    reference operator*() const { return *at_; }
    Place& operator++() {
        *reached_ = ++at_;
        return *this;
    }
    bool operator==(const Place& other) const { return at_ == other.at_; }
    bool operator!=(const Place& other) const { return at_ != other.at_; }

  private:
    const char* at_;
    const char** reached_;
};

/// Builds the value as the parser goes through the text. Objects of the root's list `left` stay text.
class Builder : public nlohmann::json_sax<Json> {
  public:
    Builder(std::string_view text, std::string_view left, const HowFar& told, std::size_t max_values)
        : text_(text),
          left_(left),
          told_(told),
          objects_(told ? std::count(text.begin(), text.end(), '{') : 0),
          max_values_(max_values) {}

    /// What is inside another document, at this path, and so many containers deep.
    Builder(std::string_view text, std::string path, std::size_t depth)
        : text_(text), path_(std::move(path)), depth_(depth) {}

    PartlyReadJson read() {
        Json::sax_parse(Place(text_.data(), reached_), Place(text_.data() + text_.size(), reached_), this);
        return {std::move(root_), std::move(left_objects_)};
    }

    bool null() override { return put(nullptr); }
    bool boolean(bool value) override { return put(value); }
    bool number_integer(number_integer_t value) override { return put(value); }
    bool number_unsigned(number_unsigned_t value) override { return put(value); }
    bool number_float(number_float_t value, const string_t& /*text*/) override { return put(value); }
    bool string(string_t& value) override {
        check_text(value);
        return left_depth_ > 0 || put(composed(value));
    }
    bool binary(binary_t& /*value*/) override { return false; } // text has none

    bool start_object(std::size_t /*size*/) override {
        if (told_)
            told_(static_cast<double>(++begun_) / static_cast<double>(objects_));
        if (open_.size() == 2 && in_left_list_ && left_depth_ == 0) {
            put(nullptr);
            left_begins_ = reached_ - 1;
            left_depth_ = 1;
            return true;
        }
        return open(Json::object());
    }
    bool end_object() override { return close(); }
    bool start_array(std::size_t /*size*/) override { return open(Json::array()); }
    bool end_array() override { return close(); }

    bool key(string_t& name) override {
        check_text(name);
        if (left_depth_ > 0)
            return true;
        Json& object = *open_.back();
        if (object.size() == max_keys)
            throw Error(path() + ": more than " + std::to_string(max_keys) + " keys" + fresh_export);
        const auto [member, is_new] = object.emplace(name, nullptr);
        if (!is_new)
            throw Error((open_.size() > 1 || !path_.empty() ? path() + '.' : "") + name +
                        ": the key appears twice" + fresh_export);
        member_ = &member.value();
        return true;
    }

    bool parse_error(std::size_t position, const std::string& /*token*/,
                     const Json::exception& /*why*/) override {
        if (position > text_.size())
            throw Error(place(text_, text_.size()) + ": the file ends too early" + fresh_export);
        throw Error(place(text_, position - 1) + ": this is not JSON" + fresh_export);
    }

  private:
    void check_text(const std::string& text) const {
        if (text.find('\0') != std::string::npos)
            throw Error(place(text_, static_cast<std::size_t>(reached_ - text_.data()) - 1) +
                        ": the text that ends here holds a NUL character" + fresh_export);
    }

    Json& placed(Json value) {
        if (values_++ == max_values_)
            throw Error(path() +
                        ": there are more values than any export has; check that it is the right one");
        if (open_.empty())
            return root_ = std::move(value);
        if (open_.back()->is_object())
            return *member_ = std::move(value);
        if (open_.size() == 2 && in_left_list_)
            left_objects_.emplace_back();
        open_.back()->push_back(std::move(value));
        return open_.back()->back();
    }

    bool put(Json value) {
        if (left_depth_ == 0)
            placed(std::move(value));
        return true;
    }

    bool open(Json container) {
        if (left_depth_ > 0) {
            ++left_depth_;
            return true;
        }
        Json& value = placed(std::move(container));
        if (depth_ + open_.size() == deepest)
            throw Error(path() + ": nested deeper than an export is" + fresh_export);
        if (open_.size() == 1 && !left_.empty() && root_.is_object())
            in_left_list_ = value.is_array() && root_.get_ref<const Json::object_t&>().back().first == left_;
        open_.push_back(&value);
        return true;
    }

    bool close() {
        if (left_depth_ == 0)
            open_.pop_back();
        else if (--left_depth_ == 0)
            left_objects_.back() = {left_begins_, static_cast<std::size_t>(reached_ - left_begins_)};
        return true;
    }

    /// Of the innermost container that is open.
    std::string path() const {
        std::string path = path_;
        for (std::size_t i = 0; i + 1 < open_.size(); ++i) {
            const Json& container = *open_[i];
            if (container.is_array())
                path += '[' + std::to_string(container.size() - 1) + ']';
            else
                path += (path.empty() ? "" : ".") + container.get_ref<const Json::object_t&>().back().first;
        }
        return path.empty() ? "the document" : path;
    }

    std::string_view text_;
    const char* reached_ = nullptr; ///< by the parser, in the text
    std::string path_{};            ///< of the root, where it is inside another document
    std::size_t depth_ = 0;         ///< likewise
    std::string_view left_{};
    HowFar told_{};
    std::ptrdiff_t objects_ = 0; ///< no fewer than there are: their signs, some of which may be in texts
    std::ptrdiff_t begun_ = 0;
    std::size_t max_values_ = max_json_values;
    std::size_t values_ = 0;
    Json root_;
    std::vector<std::string_view> left_objects_;
    const char* left_begins_ = nullptr; ///< the object that is gone through and stays text
    std::size_t left_depth_ = 0;        ///< containers open in it; 0: none is gone through
    bool in_left_list_ = false;
    std::vector<Json*> open_; ///< containers, the innermost last
    Json* member_ = nullptr;  ///< of the innermost, to be given its value
};

} // namespace

std::string document_text(std::istream& in) {
    if (is_longer_than(in, longest_document))
        refuse_length();
    std::string text;
    std::array<char, 65536> piece{};
    while (in.read(piece.data(), piece.size()) || in.gcount() > 0) {
        text.append(piece.data(), static_cast<std::size_t>(in.gcount()));
        if (!begins_as_document(text))
            throw Error("this is not an export of inkturn; 'inkturn export' writes one");
        if (text.size() > longest_document)
            refuse_length();
    }
    if (in.bad())
        throw Error("the file could not be read to its end; take a fresh copy");
    return text;
}

PartlyReadJson read_json(std::string_view text, std::string_view left, const HowFar& told,
                         std::size_t max_values) {
    if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
        text.remove_prefix(byte_order_mark.size());
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
        throw Error(std::string("the file is empty") + fresh_export);
    check_is_utf8(text);
    return Builder(text, left, told, max_values).read();
}

Json read_left(std::string_view text, const JsonValue& place) {
    constexpr std::size_t containers_around = 2; // the document and the list
    return Builder(text, place.path(), containers_around).read().root;
}

void JsonValue::check_keys(std::initializer_list<std::string_view> keys,
                           std::initializer_list<std::string_view> optional) const {
    const auto among = [&](std::initializer_list<std::string_view> known, std::string_view key) {
        return std::any_of(known.begin(), known.end(),
                           [&](std::string_view name) { return written(name) == key; });
    };
    each_member([&](const std::string& key, const JsonValue& member) {
        if (!among(keys, key) && !among(optional, key))
            member.refuse(std::string("the key is unknown") + fresh_export);
    });
    for (const std::string_view key : keys)
        if (!has(key))
            refuse("the key " + std::string(written(key)) + " is missing" + fresh_export);
}

JsonValue JsonValue::at(std::string_view key) const {
    const std::string_view name = written(key);
    return JsonValue(*json_->find(std::string(name)), *this, name, 0);
}

bool JsonValue::has(std::string_view key) const {
    return json_->contains(std::string(written(key)));
}

const std::string& JsonValue::text() const {
    if (!json_->is_string())
        refuse("text is expected");
    return json_->get_ref<const std::string&>();
}

const std::string& JsonValue::name() const {
    const std::string& name = text();
    checked([&] { check_is_visible(name, "'" + name + "'"); });
    return name;
}

int JsonValue::whole_number(int min, int max) const {
    // A number too large for int64 turns negative, and so is below min.
    if (!json_->is_number_integer() || json_->get<std::int64_t>() < min || json_->get<std::int64_t>() > max)
        refuse("a whole number from " + std::to_string(min) + " to " + std::to_string(max) + " is expected");
    return json_->get<int>();
}

bool JsonValue::yes_or_no() const {
    if (!json_->is_boolean())
        refuse("true or false is expected");
    return json_->get<bool>();
}

void JsonValue::check_is_list() const {
    if (!json_->is_array())
        refuse("a list is expected");
}

void JsonValue::check_is_object() const {
    if (!json_->is_object())
        refuse("an object is expected");
}

void JsonValue::refuse(const std::string& why) const {
    throw Error((parent_ ? path() : "the document") + ": " + why);
}

std::string_view JsonValue::written(std::string_view key) const {
    if (!older_)
        return key;
    const auto older = older_->find(key);
    return older == older_->end() ? key : older->second;
}

std::string JsonValue::path() const {
    if (!parent_)
        return "";
    if (parent_->json_->is_array())
        return parent_->path() + '[' + std::to_string(index_) + ']';
    const std::string before = parent_->path();
    return before + (before.empty() ? "" : ".") + std::string(key_);
}

Day read_day(const JsonValue& value) {
    const auto day = read_iso_day(value.text());
    if (!day)
        value.refuse(why_no_day(value.text()));
    return *day;
}

Day read_past_day(const JsonValue& value, Day today, const std::string& what) {
    const Day day = read_day(value);
    value.checked([&] { check_has_happened(day, today, what); });
    return day;
}

} // namespace inkturn
