#include "store/state.hpp"

namespace inkturn {

std::optional<std::int64_t> Store::State::paper_row(const std::string& id) {
    const auto known = paper_rows.find(id);
    if (known != paper_rows.end())
        return known->second;
    const auto query = prepared("SELECT id FROM paper WHERE code = ?");
    query->bindNoCopy(1, id);
    if (!query->executeStep())
        return std::nullopt;
    const std::int64_t row = query->getColumn(0).getInt64();
    paper_rows.emplace(id, row);
    return row;
}

std::shared_ptr<const Paper> Store::State::paper(std::int64_t row) {
    auto& known = papers_by_row[row];
    if (known)
        return known;

    std::vector<Part> parts;
    const auto part =
        prepared("SELECT label, marks, topic, codes FROM part WHERE paper = ? ORDER BY position");
    part->bind(1, row);
    while (part->executeStep())
        parts.push_back({part->getColumn(0).getString(), Marks(part->getColumn(1).getInt()),
                         part->getColumn(2).getString(), part->getColumn(3).getString()});

    const auto head = prepared("SELECT code, title, subject, duration, retry_by FROM paper WHERE id = ?");
    head->bind(1, row);
    head->executeStep();
    PaperHead known_head{head->getColumn(0).getString(), head->getColumn(1).getString(),
                         head->getColumn(2).getString(), std::nullopt,
                         *retry_by_named(head->getColumn(4).getString())};
    if (!head->getColumn(3).isNull())
        known_head.duration = Seconds(head->getColumn(3).getInt64());
    known = std::make_shared<Paper>(std::move(known_head), std::move(parts));
    return known;
}

void Store::add_paper(const Paper& paper) {
    if (find_paper(paper.id()))
        throw Error("paper " + paper.id() +
                    " is on file already; give another --id, or remove that one first");
    state_->changed("adding a paper to", [&] {
        const auto head = state_->prepared(
            "INSERT INTO paper (code, title, subject, duration, retry_by) VALUES (?, ?, ?, ?, ?)");
        head->bind(1, paper.id());
        head->bind(2, paper.title());
        head->bind(3, paper.subject());
        if (paper.duration())
            head->bind(4, static_cast<std::int64_t>(paper.duration()->count()));
        else
            head->bind(4);
        head->bind(5, std::string(name(paper.retry_by())));
        head->exec();
        const std::int64_t row = state_->database->getLastInsertRowid();

        std::int64_t position = 0;
        for (const Part& part : paper.parts()) {
            const auto insert = state_->prepared(
                "INSERT INTO part (paper, position, label, marks, topic, codes) VALUES (?, ?, ?, ?, ?, ?)");
            insert->bind(1, row);
            insert->bind(2, position++);
            insert->bind(3, part.label);
            insert->bind(4, part.max.count());
            insert->bind(5, part.topic);
            insert->bind(6, part.codes);
            insert->exec();
        }
    });
}

std::shared_ptr<const Paper> Store::find_paper(const std::string& id) const {
    return state_->guarded("reading a paper from", [&]() -> std::shared_ptr<const Paper> {
        const auto row = state_->paper_row(id);
        return row ? state_->paper(*row) : nullptr;
    });
}

std::vector<PaperOnFile> Store::papers() const {
    return state_->guarded("reading the papers from", [&] {
        std::vector<std::pair<std::int64_t, std::size_t>> rows;
        const auto query = state_->prepared(
            "SELECT id, (SELECT count(*) FROM sitting WHERE sitting.paper = paper.id) + (SELECT count(*) "
            "FROM script WHERE script.paper = paper.id AND retried IS NULL) FROM paper ORDER BY code");
        while (query->executeStep())
            rows.emplace_back(query->getColumn(0).getInt64(),
                              static_cast<std::size_t>(query->getColumn(1).getInt64()));
        std::vector<PaperOnFile> papers;
        for (const auto& [row, sittings] : rows)
            papers.push_back({state_->paper(row), sittings});
        return papers;
    });
}

void Store::complete_paper(const Paper& paper) {
    state_->changed("completing a paper in", [&] {
        const std::int64_t row = state_->paper_row(paper.id()).value();
        const auto head = state_->prepared("UPDATE paper SET title = ?, subject = ? WHERE id = ?");
        head->bind(1, paper.title());
        head->bind(2, paper.subject());
        head->bind(3, row);
        head->exec();
        for (const Part& part : paper.parts()) {
            const auto update =
                state_->prepared("UPDATE part SET topic = ?, codes = ? WHERE paper = ? AND label = ?");
            update->bind(1, part.topic);
            update->bind(2, part.codes);
            update->bind(3, row);
            update->bind(4, part.label);
            update->exec();
        }
        state_->forget();
    });
}

void Store::remove_paper(const std::string& id) {
    state_->changed("removing a paper from", [&] {
        const auto statement = state_->prepared("DELETE FROM paper WHERE code = ?");
        statement->bind(1, id);
        statement->exec();
        const auto planned =
            state_->prepared("DELETE FROM planned WHERE kind IN ('sit', 'foreseen') AND name = ?");
        planned->bind(1, id);
        planned->exec();
        state_->remove_candidates_without_records();
        state_->forget();
    });
}

} // namespace inkturn
