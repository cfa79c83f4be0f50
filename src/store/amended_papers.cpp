#include "inkturn/base/text.hpp"
#include "inkturn/paper/amendment.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/papers.hpp"
#include "store/state.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace inkturn {
namespace {

bool is_same_part(const Part& a, const Part& b) {
    return a.topic == b.topic && a.codes == b.codes && a.max == b.max;
}

bool has_other_marks(const Paper& was, const Paper& is) {
    for (std::size_t i = 0; i < was.parts().size(); ++i)
        if (was.part(i).max != is.part(i).max || was.part(i).codes != is.part(i).codes)
            return true;
    return false;
}

void check_has_parts_of(const Paper& is, const Paper& was) {
    bool alike = is.parts().size() == was.parts().size() && is.retry_by() == was.retry_by();
    for (std::size_t i = 0; alike && i < is.parts().size(); ++i)
        alike = is.part(i).label == was.part(i).label;
    if (!alike)
        throw Error("paper " + is.id() + " on file has other parts, or retries by another unit",
                    Error::Kind::conflict);
}

/// What of a question differs is changed in its copy, part by part.
void amend_copy(PaperAmendment& amendment, const Paper& was, const Paper& is, const Question& question,
                const Paper& copy, const Question& copied) {
    for (std::size_t i = 0; i < std::min(question.parts.size(), copied.parts.size()); ++i) {
        const Part& before = was.part(question.parts[i]);
        const Part& after = is.part(question.parts[i]);
        if (is_same_part(before, after))
            continue;
        amendment.parts.push_back({copy.part(copied.parts[i]).label, after.topic, after.codes, after.max});
    }
}

/// The parts among those at `positions` whose marks would not fit, named as `3b of sitting 4`.
void add_unfitting(std::vector<std::string>& names, const Paper& was, const Paper& is,
                   const std::vector<std::size_t>& positions, const std::vector<PartMarks>& marks,
                   const std::string& of) {
    for (std::size_t i = 0; i < positions.size(); ++i)
        if (!still_fits(marks[i], was.part(positions[i]), is.part(positions[i])))
            names.push_back(was.part(positions[i]).label + " of " + of);
}

void add_unfitting(std::vector<std::string>& names, const Paper& was, const Paper& is,
                   const SittingRecord& record) {
    add_unfitting(names, was, is, all_positions(was), record.sitting.parts,
                  "sitting " + std::to_string(static_cast<std::int64_t>(record.id)));
    for (const Reattempt& reattempt : record.reattempts)
        add_unfitting(names, was, is, question_of(was, reattempt).parts, reattempt.parts,
                      "retry " + to_text(RetryId{record.id, reattempt.question, reattempt.turn}));
}

void add_unfitting(std::vector<std::string>& names, const Paper& was, const Paper& is, const Script& script) {
    for (std::size_t i = 0; i < script.positions.size(); ++i) {
        const std::size_t position = script.positions[i];
        if (script.marks[i] && !still_fits(*script.marks[i], was.part(position), is.part(position)))
            names.push_back(was.part(position).label + " of script " + to_text(script.id));
    }
}

[[noreturn]] void refuse_unfitting(const Paper& paper, const std::vector<std::string>& names) {
    constexpr std::size_t max_named = 8;
    std::string list;
    for (std::size_t i = 0; i < std::min(names.size(), max_named); ++i)
        list += (i > 0 ? ", " : "") + names[i];
    if (names.size() > max_named)
        list += " and " + std::to_string(names.size() - max_named) + " more";
    throw Error("paper " + paper.id() + " has marks on file that would not fit: " + list +
                    "; correct those first",
                Error::Kind::conflict);
}

} // namespace

std::vector<Paper> PapersOnFile::copies_amended(const Paper& was, const Paper& is) const {
    std::map<std::string, PaperAmendment> amendments;
    for (const Copies& copies : DrawnPapers::copies(change_.store()))
        for (const QuestionName& source : copies) {
            const auto question =
                source.paper == was.id() ? was.find_question(source.question) : std::nullopt;
            if (!question)
                continue;
            for (const QuestionName& copy : copies) {
                const auto paper = change_.store().find_paper(copy.paper);
                const auto copied = paper->find_question(copy.question);
                if (copy.paper != was.id() && copied)
                    amend_copy(amendments[copy.paper], was, is, was.question(*question), *paper,
                               paper->question(*copied));
            }
        }
    std::vector<Paper> papers;
    for (const auto& [id, amendment] : amendments)
        if (!amendment.parts.empty())
            papers.push_back(amended(*change_.store().find_paper(id), amendment));
    return papers;
}

std::vector<std::string> PapersOnFile::candidates_of(const Paper& paper) const {
    Store::State& state = change_.state();
    std::vector<std::string> codes;
    const auto query = state.prepared(
        "SELECT code FROM candidate WHERE id IN (SELECT candidate FROM sitting WHERE paper = ?1) "
        "OR id IN (SELECT candidate FROM script WHERE paper = ?1) ORDER BY code");
    query->bind(1, state.paper_row_on_file(paper.id()));
    while (query->executeStep())
        codes.push_back(query->getColumn(0).getString());
    return codes;
}

void PapersOnFile::check_marks_fit(const Paper& was, const Paper& is) const {
    if (!has_other_marks(was, is))
        return;
    std::vector<std::string> unfitting;
    std::vector<SittingRecord> records;
    for (const std::string& code : candidates_of(was)) {
        for (const Script& script : Desk::scripts(change_.store(), code))
            if (script.paper->id() == was.id())
                add_unfitting(unfitting, was, is, script);
        for (SittingRecord& record : change_.store().candidate(code).sittings)
            if (record.paper->id() == was.id())
                records.push_back(std::move(record));
    }
    for (const SittingRecord& record : records)
        add_unfitting(unfitting, was, is, record);
    if (!unfitting.empty())
        refuse_unfitting(was, unfitting);
    for (const SittingRecord& record : records)
        check_can_replace(is, record.sitting, record, record.sitting.day);
}

void PapersOnFile::write(const Paper& paper) const {
    Store::State& state = change_.state();
    const std::int64_t row = state.paper_row_on_file(paper.id());
    const auto head =
        state.prepared("UPDATE paper SET title = ?, subject = ?, duration = ?, component = ? WHERE id = ?");
    head->bind(1, paper.title());
    head->bind(2, paper.subject());
    if (paper.duration())
        head->bind(3, static_cast<std::int64_t>(paper.duration()->count()));
    else
        head->bind(3);
    head->bind(4, paper.component());
    head->bind(5, row);
    head->exec();
    for (const Part& part : paper.parts()) {
        const auto update =
            state.prepared("UPDATE part SET topic = ?, codes = ?, marks = ? WHERE paper = ? AND label = ?");
        update->bind(1, part.topic);
        update->bind(2, part.codes);
        update->bind(3, part.max.count());
        update->bind(4, row);
        update->bind(5, part.label);
        update->exec();
    }
    state.forget();
}

/// What was decided about sitting it, and its days, are found by its subject too.
void PapersOnFile::move_decisions(const Paper& was, const Paper& is) const {
    if (was.subject() == is.subject())
        return;
    exec("UPDATE OR REPLACE steered_work SET subject = ?1 WHERE kind = 'sit' AND name = ?2",
         {is.subject(), is.id()});
    exec("UPDATE planned SET subject = ?1 WHERE kind IN ('sit', 'foreseen') AND name = ?2",
         {is.subject(), is.id()});
}

/// Those that no part on file has any more, if all of their parts in the paper have one topic now. Comes
/// after write().
std::vector<PapersOnFile::TopicChange> PapersOnFile::topics_gone(const Paper& was, const Paper& is) const {
    std::map<std::string, std::set<std::string>> became;
    for (std::size_t i = 0; i < was.parts().size(); ++i)
        became[was.part(i).topic].insert(is.part(i).topic);
    std::vector<TopicChange> gone;
    for (const auto& [topic, now] : became) {
        const auto query = change_.state().prepared(
            "SELECT 1 FROM part JOIN paper ON paper.id = part.paper WHERE subject = ? AND topic = ?");
        query->bind(1, was.subject());
        query->bind(2, topic);
        if (!topic.empty() && now.size() == 1 && !now.begin()->empty() && !query->executeStep())
            gone.push_back({was.subject(), topic, is.subject(), *now.begin()});
    }
    return gone;
}

void PapersOnFile::exec(const char* sql, const std::vector<std::string>& texts) const {
    const auto statement = change_.state().prepared(sql);
    for (std::size_t i = 0; i < texts.size(); ++i)
        statement->bind(static_cast<int>(i + 1), texts[i]);
    statement->exec();
}

/// Where both names have the same thing on file, that of the new one stays.
void PapersOnFile::move_topic(const TopicChange& change) const {
    const std::vector<std::string> before{change.subject, change.topic};
    const std::vector<std::string> both{change.subject, change.topic, change.new_subject, change.new_topic};
    exec("UPDATE OR IGNORE relearned SET subject = ?3, topic = ?4 WHERE subject = ?1 AND topic = ?2", both);
    exec("DELETE FROM relearned WHERE subject = ?1 AND topic = ?2", before);
    exec("UPDATE OR IGNORE topic_rating SET subject = ?3, topic = ?4 WHERE subject = ?1 AND topic = ?2",
         both);
    exec("DELETE FROM topic_rating WHERE subject = ?1 AND topic = ?2", before);
    exec("UPDATE OR IGNORE steered_work SET subject = ?3, name = ?4 WHERE kind = 'relearn' AND subject = ?1 "
         "AND "
         "name = ?2",
         both);
    exec("DELETE FROM steered_work WHERE kind = 'relearn' AND subject = ?1 AND name = ?2", before);
    exec("UPDATE planned SET subject = ?3, name = ?4 WHERE kind IN ('relearn', 'check') AND subject = ?1 AND "
         "name = ?2",
         both);
    if (change.subject == change.new_subject)
        exec("UPDATE fact SET topic = ?3 WHERE subject = ?1 AND topic = ?2",
             {change.subject, change.topic, change.new_topic});
}

void PapersOnFile::give_id(const std::string& id, const std::string& new_id) {
    Store::State& state = change_.state();
    state.changed("giving a paper another id in", [&] {
        check_paper_id(new_id);
        state.paper_row_on_file(id);
        if (change_.store().find_paper(new_id))
            throw Error("paper " + new_id + " is already on file", Error::Kind::conflict);
        exec("UPDATE paper SET code = ?2 WHERE code = ?1", {id, new_id});
        exec("UPDATE planned SET name = ?2 WHERE kind IN ('sit', 'foreseen') AND name = ?1", {id, new_id});
        exec("UPDATE steered_work SET name = ?2 WHERE kind = 'sit' AND name = ?1", {id, new_id});
        exec("UPDATE OR IGNORE collected_record SET paper = ?2 WHERE paper = ?1", {id, new_id});
        state.forget();
    });
}

PaperAmended PapersOnFile::amend(const Paper& paper) {
    return change_.state().changed("amending a paper in", [&] {
        const auto was = change_.state().paper(change_.state().paper_row_on_file(paper.id()));
        check_has_parts_of(paper, *was);
        std::vector<std::pair<std::shared_ptr<const Paper>, Paper>> all;
        all.emplace_back(was, paper);
        for (Paper& copy : copies_amended(*was, paper)) {
            const auto before = change_.store().find_paper(copy.id());
            all.emplace_back(before, std::move(copy));
        }
        for (const auto& [before, after] : all)
            check_marks_fit(*before, after);
        for (const auto& [before, after] : all) {
            write(after);
            move_decisions(*before, after);
        }
        PaperAmended amended;
        for (const TopicChange& change : topics_gone(*was, paper)) {
            move_topic(change);
            if (change.topic != change.new_topic)
                amended.topics.push_back({change.topic, change.new_topic});
        }
        for (std::size_t i = 1; i < all.size(); ++i)
            amended.copies.push_back(all[i].second.id());
        return amended;
    });
}

} // namespace inkturn
