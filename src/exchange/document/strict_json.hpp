#pragma once

#include "exchange/json/forward.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/base/error.hpp"

#include <nlohmann/json.hpp>

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>

namespace inkturn {

/// Reads JSON from outside, with or without a byte order mark. Throws Error that says the line and column
/// (characters, from 1) where the bytes are no UTF-8 or the text no JSON, and the path where an object has a
/// key twice or more than 500 keys, or values nest deeper than 16.
Json read_json(std::string_view text);

/// A value that was read and the way to it, which is only put into words for an Error:
/// `candidates[3].sittings[2].marks.7b: ...`. Whatever is asked of it throws Error where it is of another
/// type. The JSON, and the value that it was asked of, must outlive it.
class JsonValue {
  public:
    explicit JsonValue(const Json& root) : json_(&root) {}

    /// Throws Error unless it is an object with these keys, each of them and no other but optional ones.
    void check_keys(std::initializer_list<std::string_view> keys,
                    std::initializer_list<std::string_view> optional = {}) const;
    /// A member of an object that has this key.
    JsonValue at(std::string_view key) const;

    bool is_null() const { return json_->is_null(); }
    bool has(std::string_view key) const; ///< false too where it is no object
    const std::string& text() const;
    int whole_number(int min, int max) const; ///< both included; least is 0 or more

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

    /// Does the work; what it refuses is said with the way to this value.
    template <typename Work>
    auto checked(const Work& work) const -> decltype(work()) {
        try {
            return work();
        } catch (const Error& error) {
            refuse(error.what());
        }
    }

    [[noreturn]] void refuse(const std::string& why) const;

  private:
    JsonValue(const Json& json, const JsonValue& parent, std::string_view key, std::size_t index)
        : json_(&json), parent_(&parent), key_(key), index_(index) {}

    void check_is_list() const;
    void check_is_object() const;
    std::string path() const;

    const Json* json_;
    const JsonValue* parent_ = nullptr;
    std::string_view key_;  ///< in the parent, where that is an object
    std::size_t index_ = 0; ///< in the parent, where that is a list
};

/// A day in ISO 8601.
Day read_day(const JsonValue& value);

/// The same for the day of what has happened; `what` names it.
Day read_past_day(const JsonValue& value, Day today, const std::string& what);

} // namespace inkturn
