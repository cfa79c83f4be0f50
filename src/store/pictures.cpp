#include "store/state.hpp"

#include "inkturn/paper/label.hpp"

namespace inkturn {
namespace {

/// A row of kind, width, height and bytes, from this column on.
Picture picture_in(SQLite::Statement& row, int column) {
    const SQLite::Column bytes = row.getColumn(column + 3);
    return {
        *picture_kind_named(row.getColumn(column).getString()), row.getColumn(column + 1).getUInt(),
        row.getColumn(column + 2).getUInt(),
        std::string(static_cast<const char*>(bytes.getBlob()), static_cast<std::size_t>(bytes.getBytes()))};
}

} // namespace

PictureId Store::add_picture(const Paper& paper, const std::string& question, Shows shows,
                             const Picture& picture) {
    return state_->changed("adding a picture to", [&] {
        const auto insert = state_->prepared("INSERT INTO picture (paper, question, shows, kind, width, "
                                             "height, bytes) VALUES (?, ?, ?, ?, ?, ?, ?)");
        insert->bind(1, state_->paper_row(paper.id()).value());
        insert->bind(2, question);
        insert->bind(3, std::string(name(shows)));
        insert->bind(4, std::string(name(picture.kind)));
        insert->bind(5, picture.width);
        insert->bind(6, picture.height);
        insert->bindNoCopy(7, picture.bytes.data(), static_cast<int>(picture.bytes.size()));
        insert->exec();
        return PictureId{state_->database->getLastInsertRowid()};
    });
}

std::vector<PictureOnFile> Store::pictures() const {
    return state_->guarded("reading the pictures from", [&] {
        std::vector<PictureOnFile> pictures;
        const auto query = state_->prepared(
            "SELECT picture.id, paper.code, question, shows, kind, width, height, length(bytes) FROM "
            "picture JOIN paper ON paper.id = picture.paper ORDER BY paper.code, picture.id");
        while (query->executeStep())
            pictures.push_back(
                {PictureId{query->getColumn(0).getInt64()}, query->getColumn(1).getString(),
                 query->getColumn(2).getString(), *shows_named(query->getColumn(3).getString()),
                 *picture_kind_named(query->getColumn(4).getString()), query->getColumn(5).getUInt(),
                 query->getColumn(6).getUInt(), static_cast<std::size_t>(query->getColumn(7).getInt64())});
        return pictures;
    });
}

std::optional<Picture> Store::picture(PictureId id) const {
    return state_->guarded("reading a picture from", [&]() -> std::optional<Picture> {
        const auto query = state_->prepared("SELECT kind, width, height, bytes FROM picture WHERE id = ?");
        query->bind(1, static_cast<std::int64_t>(id));
        if (!query->executeStep())
            return std::nullopt;
        return picture_in(*query, 0);
    });
}

std::vector<Picture> Store::pictures_of(const Paper& paper, const std::string& question, Shows shows) const {
    return state_->guarded("reading pictures from", [&] {
        std::vector<Picture> pictures;
        const auto query = state_->prepared(
            "SELECT kind, width, height, bytes FROM picture WHERE paper = ? AND shows = ? AND (question "
            "= ?3 OR (question = ?4 AND NOT EXISTS (SELECT 1 FROM picture AS nearer WHERE nearer.paper = "
            "picture.paper AND nearer.shows = picture.shows AND nearer.question = ?3))) ORDER BY id");
        query->bind(1, state_->paper_row(paper.id()).value());
        query->bind(2, std::string(name(shows)));
        query->bind(3, question);
        query->bind(4, std::string(question_of(question)));
        while (query->executeStep())
            pictures.push_back(picture_in(*query, 0));
        return pictures;
    });
}

void Store::remove_picture(PictureId id) {
    state_->changed("removing a picture from", [&] {
        const auto statement = state_->prepared("DELETE FROM picture WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        statement->exec();
    });
}

} // namespace inkturn
