#include "exchange/document/awards.hpp"

#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/awards.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr const char* replaced_if_asked = "; --replace takes the file's";

Json value_of(const Award& award, const ComponentChoice& choice) {
    Json names = Json::array();
    for (const std::size_t position : choice.components)
        names.push_back(award.components[position].name);
    return {{"components", std::move(names)}, {"count", choice.count}};
}

Json value_of(const Component& component) {
    Json object{{"component", component.name}, {"marks", component.marks.count()}};
    if (component.weight != Weight())
        object["weight"] = to_text(component.weight);
    if (component.uniform)
        object["uniform"] = component.uniform->count();
    return object;
}

Marks read_set_marks(const JsonValue& value, int min) {
    return Marks(value.whole_number(min, max_set_marks.count()));
}

Component read_component(const JsonValue& value) {
    value.check_keys({"component", "marks"}, {"weight", "uniform"});
    Component component{value.at("component").name(), read_set_marks(value.at("marks"), 1)};
    if (value.has("weight")) {
        const JsonValue weight = value.at("weight");
        component.weight =
            weight.checked([&, &text = weight.text()] { return parse_weight(text, "weight"); });
    }
    if (value.has("uniform"))
        component.uniform = read_set_marks(value.at("uniform"), 1);
    return component;
}

ComponentChoice read_component_choice(const JsonValue& value, const Award& award) {
    value.check_keys({"components", "count"});
    ComponentChoice choice{{}, value.at("count").whole_number(1, max_set_marks.count())};
    value.at("components").each_element([&](const JsonValue& name) {
        const auto position = award.find_component(name.text());
        if (!position)
            name.refuse("the award has no component '" + name.text() + "'");
        choice.components.push_back(*position);
    });
    if (choice.components.empty())
        value.at("components").refuse("name the components that can be chosen");
    std::sort(choice.components.begin(), choice.components.end());
    return choice;
}

std::string read_subject_or_null(const JsonValue& value) {
    const JsonValue subject = value.at("subject");
    if (subject.is_null())
        return "";
    if (subject.text().empty())
        subject.refuse("write null for all subjects, not an empty text");
    return subject.name();
}

void read_grade(const JsonValue& value, BoundarySet& set) {
    value.check_keys({"grade", "mark"}, {"uniform"});
    set.grades.push_back({value.at("grade").text(), read_set_marks(value.at("mark"), 0)});
    if (value.has("uniform"))
        set.uniform.push_back(read_set_marks(value.at("uniform"), 0));
}

} // namespace

Json value_of(const Award& award) {
    Json components = Json::array();
    for (const Component& component : award.components)
        components.push_back(value_of(component));
    Json object{{"award", award.name},
                {"subject", null_if_empty(award.subject)},
                {"components", std::move(components)}};
    for (const ComponentChoice& choice : award.choices)
        object["choices"].push_back(value_of(award, choice));
    return object;
}

Award read_award(const JsonValue& value) {
    value.check_keys({"award", "subject", "components"}, {"choices"});
    Award award{value.at("award").name(), read_subject_or_null(value), {}, {}};
    value.at("components").each_element([&](const JsonValue& component) {
        award.components.push_back(read_component(component));
    });
    if (value.has("choices"))
        value.at("choices").each_element(
            [&](const JsonValue& choice) { award.choices.push_back(read_component_choice(choice, award)); });
    value.checked([&] { check_award(award); });
    return award;
}

Json value_of(const BoundarySet& set) {
    Json grades = value_of(set.grades);
    for (std::size_t i = 0; i < set.uniform.size(); ++i)
        grades[i]["uniform"] = set.uniform[i].count();
    Json object{{"set", set.name},
                {"subject", null_if_empty(set.subject)},
                {"total", set.total.count()},
                {"grades", std::move(grades)}};
    if (set.filled)
        object["filled"] = name(*set.filled);
    if (set.is_guess)
        object["guess"] = true;
    if (!set.award.empty())
        object["award"] = set.award;
    if (!set.component.empty())
        object["component"] = set.component;
    if (set.cap)
        object["cap"] = set.cap->count();
    return object;
}

BoundarySet read_boundary_set(const JsonValue& value) {
    value.check_keys({"set", "subject", "total", "grades"}, {"filled", "guess", "award", "component", "cap"});
    BoundarySet set{
        value.at("set").name(), read_subject_or_null(value), read_set_marks(value.at("total"), 1), {}};
    if (value.has("filled")) {
        set.filled = fill_rule_named(value.at("filled").text());
        if (!set.filled)
            value.at("filled").refuse("write quarters, thirds or halves");
    }
    set.is_guess = value.has("guess") && value.at("guess").yes_or_no();
    if (value.has("award"))
        set.award = value.at("award").name();
    if (value.has("component")) {
        if (set.award.empty())
            value.at("component").refuse("a component belongs to an award: name it too");
        set.component = value.at("component").name();
    }
    if (value.has("cap"))
        set.cap = read_set_marks(value.at("cap"), 1);
    value.at("grades").each_element([&](const JsonValue& grade) { read_grade(grade, set); });
    value.checked([&] { check_boundary_set(set); });
    return set;
}

void take_awards(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge) {
    AwardsOnFile awards(change);
    for (const Award& award : document.awards) {
        const std::vector<Award> on_file = AwardsOnFile::all(change.store());
        const Award* here = AwardsOnFile::find(on_file, award.name);
        try {
            if (here == nullptr) {
                awards.add(award);
                ++merge.awards_added;
            } else if (*here == award) {
                ++merge.awards_unchanged;
            } else if (!options.replace) {
                merge.refuse("award '" + award.name + "': it differs here from the file" + replaced_if_asked);
            } else {
                awards.replace(award);
                ++merge.awards_replaced;
            }
        } catch (const StoreError&) {
            throw;
        } catch (const Error& error) {
            merge.refuse(error.what());
        }
    }
}

void take_boundaries(Store::Change& change, const Document& document, const MergeOptions& options,
                     Merge& merge) {
    BoundarySets sets(change);
    for (const BoundarySet& set : document.boundaries) {
        const std::vector<BoundarySetOnFile> on_file = BoundarySets::all(change.store());
        const auto here = std::find_if(on_file.begin(), on_file.end(), [&](const BoundarySetOnFile& other) {
            return is_same_series(other.set, set);
        });
        try {
            if (here == on_file.end()) {
                sets.add(set);
                ++merge.boundary_sets_added;
            } else if (here->set == set) {
                ++merge.boundary_sets_unchanged;
            } else if (!options.replace) {
                merge.refuse("boundary set '" + set.name + "'" + owner_text(set) +
                             ": its marks here differ from those in the file" + replaced_if_asked);
            } else {
                sets.remove(here->id);
                sets.add(set);
                ++merge.boundary_sets_replaced;
            }
        } catch (const StoreError&) {
            throw;
        } catch (const Error& error) {
            merge.refuse(error.what());
        }
    }
}

} // namespace inkturn
