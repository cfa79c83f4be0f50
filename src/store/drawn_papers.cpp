#include "inkturn/store/drawn_papers.hpp"

#include "store/state.hpp"

namespace inkturn {
std::vector<Copies> DrawnPapers::copies(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded("reading the drawn papers from", [&] {
        std::vector<Copies> sets;
        std::optional<std::int64_t> last;
        const auto query =
            state.prepared("SELECT same, paper.code, question FROM copied_question JOIN paper ON paper.id = "
                           "copied_question.paper ORDER BY same, position");
        while (query->executeStep()) {
            const std::int64_t same = query->getColumn(0).getInt64();
            if (same != last)
                sets.emplace_back();
            last = same;
            sets.back().push_back({query->getColumn(1).getString(), query->getColumn(2).getString()});
        }
        return sets;
    });
}

std::optional<std::int64_t> DrawnPapers::set_of(const QuestionName& name) const {
    Store::State& state = *store_.state_;
    const auto query = state.prepared("SELECT same FROM copied_question WHERE paper = ? AND question = ?");
    query->bind(1, state.paper_row(name.paper).value());
    query->bind(2, name.question);
    if (!query->executeStep())
        return std::nullopt;
    return query->getColumn(0).getInt64();
}

std::int64_t DrawnPapers::set_made(const QuestionName& name) {
    if (const auto known = set_of(name))
        return *known;
    const auto query = store_.state_->prepared("SELECT ifnull(max(same), 0) + 1 FROM copied_question");
    query->executeStep();
    const std::int64_t same = query->getColumn(0).getInt64();
    put_last(same, name);
    return same;
}

void DrawnPapers::put_last(std::int64_t same, const QuestionName& name) {
    Store::State& state = *store_.state_;
    const auto insert =
        state.prepared("INSERT INTO copied_question (same, position, paper, question) VALUES (?1, (SELECT "
                       "ifnull(max(position) + 1, 0) FROM copied_question WHERE same = ?1), ?2, ?3)");
    insert->bind(1, same);
    insert->bind(2, state.paper_row(name.paper).value());
    insert->bind(3, name.question);
    insert->exec();
}

void DrawnPapers::join(std::int64_t same, std::int64_t other) {
    const auto update = store_.state_->prepared(
        "UPDATE copied_question SET same = ?1, position = position + (SELECT max(position) + 1 FROM "
        "copied_question WHERE same = ?1) WHERE same = ?2");
    update->bind(1, same);
    update->bind(2, other);
    update->exec();
}

void DrawnPapers::note_copy(const QuestionName& source, const QuestionName& copy) {
    store_.state_->changed("noting a copy in", [&] {
        const std::int64_t same = set_made(source);
        const auto other = set_of(copy);
        if (!other)
            put_last(same, copy);
        else if (*other != same)
            join(same, *other);
    });
}

void DrawnPapers::add(const Paper& paper, const std::vector<Drawable>& questions) {
    store_.add_paper(paper);
    for (std::size_t i = 0; i < questions.size(); ++i) {
        const Paper& source = *questions[i].paper;
        const std::string& question = questions[i].asked().label;
        const std::string& drawn = paper.questions()[i].label;
        note_copy({source.id(), question}, {paper.id(), drawn});
        for (const Shows shows : {Shows::question, Shows::scheme})
            for (const Picture& picture : store_.pictures_of(source, question, shows))
                store_.add_picture(paper, drawn, shows, picture);
    }
}

} // namespace inkturn
