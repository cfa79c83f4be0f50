#pragma once

#include "exchange/json/forward.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/how_far.hpp"

#include <nlohmann/json.hpp>

#include <cstddef>
#include <initializer_list>
#include <iosfwd>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// All of a file that holds one JSON object. Throws Error where it begins otherwise, has more than 128 MB or
/// can't be read to its end; little is read of a file that begins otherwise.
std::string document_text(std::istream& in);

/// Of a candidate, and of all else together: a value takes some 50 bytes of memory.
constexpr std::size_t max_json_values = 4'000'000;

/// JSON of which the objects in one list of the root are still text, so that a long list is never in memory
/// as a whole.
struct PartlyReadJson {
    Json root;                            ///< with null where these objects stand
    std::vector<std::string_view> left{}; ///< an element of the list each; empty: it is no object
};

/// Reads JSON from outside, with or without a byte order mark, but for the objects in the root's list named
/// `left`. Throws Error with the line and column (characters, from 1) where the bytes aren't UTF-8 or the
/// text isn't JSON, and with the path where an object has a key twice or more than 500 keys, values nest
/// deeper than 16, or there are more than so many. The text must outlive what was left.
PartlyReadJson read_json(std::string_view text, std::string_view left, const HowFar& told = {},
                         std::size_t max_values = max_json_values);

/// What an older version of a document calls a key, by its name today.
using OlderKeys = std::map<std::string_view, std::string_view>;

/// A value that was read and the way to it, which is only put into words for an Error:
/// `candidates[3].sittings[2].marks.7b: ...`. Every call throws Error if the value is of another type. The
/// JSON, the older keys and the value it was taken from must outlive it. Keys are given by their names today;
/// messages have them as the document writes them.
class JsonValue {
  public:
    explicit JsonValue(const Json& root, const OlderKeys* older = nullptr) : json_(&root), older_(older) {}

    /// Throws Error unless it is an object with all of these keys, and no others but optional ones.
    void check_keys(std::initializer_list<std::string_view> keys,
                    std::initializer_list<std::string_view> optional = {}) const;
    /// A member of an object that has this key.
    JsonValue at(std::string_view key) const;

    bool is_null() const { return json_->is_null(); }
    bool has(std::string_view key) const; ///< false too if it is not an object
    const std::string& text() const;
    const std::string& name() const;          ///< text without characters that show nothing
    int whole_number(int min, int max) const; ///< both included; min is 0 or more
    bool yes_or_no() const;                   ///< true or false

    /// Calls work(element) for each of a list.
    template <typename Work>
    void each_element(const Work& work) const {
        check_is_list();
        std::size_t index = 0;
        for (const Json& element : *json_)
            work(JsonValue(element, *this, "", index++));
    }

    /// Calls work(key, member) for each member of an object.
    template <typename Work>
    void each_member(const Work& work) const {
        check_is_object();
        for (const auto& [key, member] : json_->get_ref<const Json::object_t&>())
            work(key, JsonValue(member, *this, key, 0));
    }

    /// The value that was left as text and read since.
    JsonValue read_as(const Json& json) const {
        JsonValue read(*this);
        read.json_ = &json;
        return read;
    }

    /// Does the work; an Error of it gets the way to this value. Its remedy goes: that is about what is on
    /// file, and this isn't.
    template <typename Work>
    auto checked(const Work& work) const -> decltype(work()) {
        try {
            return work();
        } catch (const Error& error) {
            refuse(error.what());
        }
    }

    [[noreturn]] void refuse(const std::string& why) const;
    std::string path() const; ///< the way to it; empty for the root

  private:
    JsonValue(const Json& json, const JsonValue& parent, std::string_view key, std::size_t index)
        : json_(&json), older_(parent.older_), parent_(&parent), key_(key), index_(index) {}

    void check_is_list() const;
    void check_is_object() const;
    std::string_view written(std::string_view key) const;

    const Json* json_;
    const OlderKeys* older_; ///< null: the names of today
    const JsonValue* parent_ = nullptr;
    std::string_view key_;  ///< in the parent, where that is an object
    std::size_t index_ = 0; ///< in the parent, where that is a list
};

/// Reads an object of a list of the root that was left as text and stands at this place. Throws as
/// read_json().
Json read_left(std::string_view text, const JsonValue& place);

/// A day in ISO 8601.
Day read_day(const JsonValue& value);

/// The same for the day of what has happened; `what` names it.
Day read_past_day(const JsonValue& value, Day today, const std::string& what);

} // namespace inkturn
