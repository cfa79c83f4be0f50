#include "exchange/document/paper.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/paper/label.hpp"

namespace inkturn {
namespace {

constexpr int max_read = 1000000; ///< where the core has a closer bound

Json exported_json(const Part& part) {
    Json object{
        {"part", part.label}, {"marks", part.max.count()}, {"topic", part.topic}, {"codes", part.codes}};
    if (part.got_at)
        object["got_at"] = part.got_at->percent();
    if (part.choice)
        object["choice"] = {{"group", part.choice->group}, {"count", part.choice->count}};
    if (part.allowance)
        object["allowance_seconds"] = part.allowance->count();
    return object;
}

/// A label in its short form, the only one that is written.
const std::string& read_short_label(const JsonValue& value) {
    const std::string& label = value.text();
    if (value.checked([&] { return parse_label(label); }) != label)
        value.refuse("'" + label + "' is not the short form: write " + parse_label(label));
    return label;
}

/// Nothing where there is none.
std::optional<GotAt> read_got_at(const JsonValue& owner) {
    if (!owner.has("got_at"))
        return std::nullopt;
    return GotAt(owner.at("got_at").whole_number(GotAt::min_percent, GotAt::max_percent));
}

/// Nothing where there is none.
std::optional<QuestionChoice> read_choice(const JsonValue& owner) {
    if (!owner.has("choice"))
        return std::nullopt;
    const JsonValue value = owner.at("choice");
    value.check_keys({"group", "count"});
    const QuestionChoice choice{value.at("group").text(),
                                value.at("count").whole_number(1, static_cast<int>(Paper::max_parts))};
    return value.checked([&] { return parse_choice(to_text(choice)); });
}

/// Nothing where there is none.
std::optional<Seconds> read_allowance(const JsonValue& owner) {
    if (!owner.has("allowance_seconds"))
        return std::nullopt;
    return Seconds(owner.at("allowance_seconds").whole_number(1, max_read));
}

Part read_part(const JsonValue& value) {
    value.check_keys({"part", "marks", "topic", "codes"}, {"got_at", "choice", "words", "allowance_seconds"});
    return {read_short_label(value.at("part")),
            Marks(value.at("marks").whole_number(1, max_read)),
            value.at("topic").name(),
            value.at("codes").text(),
            read_got_at(value),
            read_choice(value),
            read_allowance(value)};
}

RetryBy read_retry_by(const JsonValue& value) {
    const auto by = retry_by_named(value.text());
    if (!by)
        value.refuse("'" + value.text() + "' is neither question nor part");
    return *by;
}

} // namespace

Json exported_json(const Paper& paper) {
    Json object{{"paper", paper.id()},
                {"title", paper.title()},
                {"subject", paper.subject()},
                {"duration_seconds", paper.duration() ? Json(paper.duration()->count()) : Json(nullptr)},
                {"retry_by", name(paper.retry_by())}};
    if (paper.got_at())
        object["got_at"] = paper.got_at()->percent();
    if (!paper.component().empty())
        object["component"] = paper.component();
    Json parts = Json::array();
    for (const Part& part : paper.parts())
        parts.push_back(exported_json(part));
    object["parts"] = std::move(parts);
    return object;
}

std::shared_ptr<const Paper> read_paper(const JsonValue& value) {
    value.check_keys({"paper", "title", "subject", "duration_seconds", "retry_by", "parts"},
                     {"got_at", "keep_unseen", "component"});
    PaperHead head{value.at("paper").text(),
                   value.at("title").name(),
                   value.at("subject").name(),
                   std::nullopt,
                   read_retry_by(value.at("retry_by")),
                   read_got_at(value)};
    if (value.has("component"))
        head.component = value.at("component").name();
    const JsonValue duration = value.at("duration_seconds");
    if (!duration.is_null())
        head.duration = Seconds(duration.whole_number(0, max_read));
    std::vector<Part> parts;
    value.at("parts").each_element([&](const JsonValue& part) { parts.push_back(read_part(part)); });
    return value.checked([&] { return std::make_shared<const Paper>(std::move(head), std::move(parts)); });
}

} // namespace inkturn
