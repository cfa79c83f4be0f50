#include "inkturn/grades/award.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <set>

namespace inkturn {
namespace {

constexpr std::size_t max_components = 30;
constexpr std::size_t max_component_name = 64;
constexpr std::size_t max_award_name = 200;

std::string count_of(Marks marks) {
    return std::to_string(marks.count());
}

std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names)
        text += (text.empty() ? "" : ", ") + name;
    return text;
}

std::string component_names(const Award& award) {
    std::vector<std::string> names;
    for (const Component& component : award.components)
        names.push_back(component.name);
    return listed(names);
}

void check_component_name(const std::string& name) {
    check_printable(name, max_component_name, "component '" + name + "'");
    if (name.empty() || trimmed(name) != name || name.find_first_of("=*,") != std::string::npos)
        throw Error("component '" + name + "': give 1 to " + std::to_string(max_component_name) +
                    " characters, none of = * and comma, and no blanks at either end");
}

void check_marks(const Component& component) {
    const auto check = [&](Marks marks, const std::string& what) {
        if (marks < Marks(1) || marks > max_set_marks)
            throw Error("component " + component.name + ": " + what + " can't be " + count_of(marks) +
                        ": give 1 to " + count_of(max_set_marks));
    };
    check(component.marks, "its marks");
    if (component.uniform)
        check(*component.uniform, "its uniform maximum");
    if (component.uniform && component.weight != Weight())
        throw Error("component " + component.name +
                    " has a uniform maximum, which is its weight: leave the other weight out");
}

void check_components(const Award& award) {
    if (award.components.empty() || award.components.size() > max_components)
        throw Error("give 1 to " + std::to_string(max_components) + " components");
    std::set<std::string> names;
    for (const Component& component : award.components) {
        check_component_name(component.name);
        check_marks(component);
        if (!names.insert(component.name).second)
            throw Error("component " + component.name + " appears twice: name each once");
        if (component.uniform.has_value() != award.components.front().uniform.has_value())
            throw Error("component " + component.name + (component.uniform ? " has" : " has no") +
                        " uniform maximum, unlike the first one: give all of them one, or none");
    }
}

void check_choice(const Award& award, const ComponentChoice& choice, std::set<std::size_t>& taken) {
    const std::string of = listed([&] {
        std::vector<std::string> names;
        for (const std::size_t position : choice.components)
            names.push_back(award.components[position].name);
        return names;
    }());
    if (choice.count < 1 || static_cast<std::size_t>(choice.count) >= choice.components.size())
        throw Error("of " + of + " can't count " + std::to_string(choice.count) +
                    ": give at least 1, and fewer than there are");
    for (const std::size_t position : choice.components) {
        const Component& component = award.components[position];
        if (!taken.insert(position).second)
            throw Error("component " + component.name + " is in two choices");
        if (component.maximum() != award.components[choice.components.front()].maximum())
            throw Error("of " + of + " any can count, so all must bring equally much, marks times weight: " +
                        component.name + " brings " + count_of(rounded(component.maximum())));
    }
}

/// By its fault in a sentence, what a set that is out of something else should be.
[[noreturn]] void refuse_total(const BoundarySet& set, const std::string& of, Marks total) {
    throw Error("boundary set '" + set.name + "' is out of " + count_of(set.total) + ", but " + of +
                " is out of " + count_of(total) + ": marks are never rescaled, so check both");
}

void check_uniform_marks_of(const BoundarySet& set, const Component& component) {
    const std::string where = "boundary set '" + set.name + "' of component " + component.name + ": ";
    if (!component.uniform && !set.uniform.empty())
        throw Error(where + "the award has no uniform marks: leave them out");
    if (!component.uniform)
        return;
    if (set.uniform.empty())
        throw Error(where + "give each grade its uniform mark too, such as --uniform A=80,B=70");
    if (set.uniform.front() >= *component.uniform || set.grades.front().mark >= set.total)
        throw Error(where + "the top grade must lie below full marks, and its uniform mark below " +
                    count_of(*component.uniform));
}

bool share_subject(const Award& a, const Award& b) {
    return a.subject.empty() || b.subject.empty() || a.subject == b.subject;
}

/// The subjects of the awards that have the component, else of all.
std::vector<std::string> subjects_for(const std::string& component, const std::vector<Award>& awards) {
    std::set<std::string> with_it, all;
    for (const Award& award : awards) {
        all.insert(award.subject);
        if (award.find_component(component))
            with_it.insert(award.subject);
    }
    const std::set<std::string>& subjects = with_it.empty() ? all : with_it;
    return {subjects.begin(), subjects.end()};
}

[[noreturn]] void refuse_component(const Paper& paper, const std::vector<Award>& awards) {
    std::vector<std::string> there;
    for (const Award& award : awards)
        if (covers(award, paper.subject()))
            there.push_back(component_names(award));
    if (paper.subject().empty() && there.empty() && !awards.empty())
        throw Error("paper " + paper.id() + " has no subject, and the awards on file are for " +
                    listed(subjects_for(paper.component(), awards)) + ": give --subject too");
    throw Error("no award on file" + (paper.subject().empty() ? std::string() : " for " + paper.subject()) +
                " has a component '" + paper.component() + "'" +
                (there.empty() ? "; add it with 'inkturn award add'" : ": there are " + listed(there)));
}

} // namespace

bool Award::is_uniform() const {
    return components.front().uniform.has_value();
}

Marks Award::total() const {
    WeightedMarks sum = 0;
    for (std::size_t i = 0; i < components.size(); ++i)
        if (choice_of(i) == nullptr)
            sum += components[i].maximum();
    for (const ComponentChoice& choice : choices)
        sum += components[choice.components.front()].maximum() * choice.count;
    return rounded(sum);
}

std::optional<std::size_t> Award::find_component(std::string_view called) const {
    for (std::size_t i = 0; i < components.size(); ++i)
        if (components[i].name == called)
            return i;
    return std::nullopt;
}

const ComponentChoice* Award::choice_of(std::size_t component) const {
    for (const ComponentChoice& choice : choices)
        if (std::find(choice.components.begin(), choice.components.end(), component) !=
            choice.components.end())
            return &choice;
    return nullptr;
}

bool operator==(const Award& a, const Award& b) {
    return a.name == b.name && a.subject == b.subject && a.components == b.components &&
           a.choices == b.choices;
}

void check_award(const Award& award) {
    if (award.name.empty() || trimmed(award.name) != award.name)
        throw Error("an award needs a name, without blanks at its ends");
    check_printable(award.name, max_award_name, "the award's name");
    check_printable(award.subject, max_award_name, "the award's subject");
    try {
        check_components(award);
        std::set<std::size_t> taken;
        for (const ComponentChoice& choice : award.choices)
            check_choice(award, choice, taken);
        if (award.total() > max_set_marks)
            throw Error("full marks would bring " + count_of(award.total()) + ": at most " +
                        count_of(max_set_marks) + " can be worked with");
    } catch (const Error& error) {
        throw error.within("award '" + award.name + "': ");
    }
}

void check_apart(const Award& award, const Award& other) {
    if (!share_subject(award, other))
        return;
    for (const Component& component : award.components)
        if (other.find_component(component.name))
            throw Error("award '" + other.name + "' has a component " + component.name +
                            " too, so a paper of it would belong to both: give one of them another name",
                        Error::Kind::conflict);
}

std::string to_text(const Award& award, const ComponentChoice& choice) {
    std::vector<std::string> names;
    for (const std::size_t position : choice.components)
        names.push_back(award.components[position].name);
    return "any " + std::to_string(choice.count) + " of " + listed(names);
}

bool covers(const Award& award, std::string_view subject) {
    return award.subject.empty() || award.subject == subject;
}

std::optional<PaperComponent> component_of(const Paper& paper, const std::vector<Award>& awards) {
    if (paper.component().empty())
        return std::nullopt;
    for (const Award& award : awards)
        if (covers(award, paper.subject()))
            if (const auto position = award.find_component(paper.component()))
                return PaperComponent{&award, *position};
    return std::nullopt;
}

std::vector<std::shared_ptr<const Paper>> papers_of(const Award& award, std::size_t component,
                                                    const std::vector<std::shared_ptr<const Paper>>& papers) {
    std::vector<std::shared_ptr<const Paper>> of;
    for (const auto& paper : papers)
        if (covers(award, paper->subject()) && paper->component() == award.components[component].name)
            of.push_back(paper);
    return of;
}

void check_component(const Paper& paper, const std::vector<Award>& awards) {
    if (paper.component().empty())
        return;
    const auto found = component_of(paper, awards);
    if (!found)
        refuse_component(paper, awards);
    const Component& component = found->award->components[found->component];
    if (paper.marks() != component.marks)
        throw Error("paper " + paper.id() + " has " + count_of(paper.marks()) + " marks, but papers of " +
                    component.name + " have " + count_of(component.marks) +
                    ": marks are never rescaled, so check the paper or the award");
}

void check_is_of(const BoundarySet& set, const Award& award) {
    if (set.component.empty()) {
        if (set.total != award.total())
            refuse_total(set, "award '" + award.name + "'", award.total());
        if (!set.uniform.empty())
            throw Error(
                "boundary set '" + set.name +
                "': uniform marks stand beside the boundaries of a component: name it with --component");
        return;
    }
    const auto position = award.find_component(set.component);
    if (!position)
        throw Error("award '" + award.name + "' has no component '" + set.component + "': there are " +
                    component_names(award));
    if (set.total != award.components[*position].marks)
        refuse_total(set, "component " + set.component, award.components[*position].marks);
    check_uniform_marks_of(set, award.components[*position]);
}

} // namespace inkturn
