#include "store/state.hpp"

#include "inkturn/paper/label.hpp"

namespace inkturn {
namespace {

constexpr const char* reading_pictures = "reading pictures from";

PictureKind kind_in(const SQLite::Column& column) {
    const auto kind = picture_kind_named(column.getString());
    if (!kind)
        throw Error("a picture of an unknown kind");
    return *kind;
}

PictureContent shows_in(const SQLite::Column& column) {
    const auto content = picture_content_named(column.getString());
    if (!content)
        throw Error("a picture of neither a question nor its mark scheme");
    return *content;
}

/// A row of kind, width, height and bytes.
Picture picture_in(SQLite::Statement& row) {
    const SQLite::Column bytes = row.getColumn(3);
    return {
        kind_in(row.getColumn(0)), row.getColumn(1).getUInt(), row.getColumn(2).getUInt(),
        std::string(static_cast<const char*>(bytes.getBlob()), static_cast<std::size_t>(bytes.getBytes()))};
}

/// A row of number, paper, question, shows, kind, width, height and count of bytes.
PictureOnFile picture_on_file_in(SQLite::Statement& row) {
    return {PictureId{row.getColumn(0).getInt64()},
            row.getColumn(1).getString(),
            row.getColumn(2).getString(),
            shows_in(row.getColumn(3)),
            kind_in(row.getColumn(4)),
            row.getColumn(5).getUInt(),
            row.getColumn(6).getUInt(),
            static_cast<std::size_t>(row.getColumn(7).getInt64())};
}

} // namespace

PictureId Store::Change::add_picture(const Paper& paper, const std::string& question, PictureContent content,
                                     const Picture& picture) {
    State& state = this->state();
    return state.changed("adding a picture to", [&] {
        const std::int64_t row = state.paper_row_on_file(paper.id());
        const std::string label = picture_label(*state.paper(row), question);
        check_picture(picture);
        const auto insert = state.prepared("INSERT INTO picture (paper, question, shows, kind, width, "
                                           "height, bytes) VALUES (?, ?, ?, ?, ?, ?, ?)");
        insert->bind(1, row);
        insert->bind(2, label);
        insert->bind(3, std::string(name(content)));
        insert->bind(4, std::string(name(picture.kind)));
        insert->bind(5, picture.width);
        insert->bind(6, picture.height);
        insert->bindNoCopy(7, picture.bytes.data(), static_cast<int>(picture.bytes.size()));
        insert->exec();
        return PictureId{state.database->getLastInsertRowid()};
    });
}

std::vector<PictureOnFile> Store::pictures() const {
    return state_->guarded(reading_pictures, [&] {
        std::vector<PictureOnFile> pictures;
        const auto query = state_->prepared(
            "SELECT picture.id, paper.code, question, shows, kind, width, height, length(bytes) FROM "
            "picture JOIN paper ON paper.id = picture.paper ORDER BY paper.code, picture.id");
        while (query->executeStep())
            pictures.push_back(
                state_->undamaged(reading_pictures, [&] { return picture_on_file_in(*query); }));
        return pictures;
    });
}

std::optional<Picture> Store::picture(PictureId id) const {
    return state_->guarded(reading_pictures, [&]() -> std::optional<Picture> {
        const auto query = state_->prepared("SELECT kind, width, height, bytes FROM picture WHERE id = ?");
        query->bind(1, static_cast<std::int64_t>(id));
        if (!query->executeStep())
            return std::nullopt;
        return state_->undamaged(reading_pictures, [&] { return picture_in(*query); });
    });
}

std::vector<Picture> Store::pictures_of(const Paper& paper, const std::string& question,
                                        PictureContent content) const {
    return state_->guarded(reading_pictures, [&] {
        std::vector<Picture> pictures;
        const auto query = state_->prepared(
            "SELECT kind, width, height, bytes FROM picture WHERE paper = ? AND shows = ? AND (question "
            "= ?3 OR (question = ?4 AND NOT EXISTS (SELECT 1 FROM picture AS nearer WHERE nearer.paper = "
            "picture.paper AND nearer.shows = picture.shows AND nearer.question = ?3))) ORDER BY id");
        query->bind(1, state_->paper_row_on_file(paper.id()));
        query->bind(2, std::string(name(content)));
        query->bind(3, question);
        query->bind(4, std::string(question_of(question)));
        while (query->executeStep())
            pictures.push_back(state_->undamaged(reading_pictures, [&] { return picture_in(*query); }));
        return pictures;
    });
}

void Store::Change::remove_picture(PictureId id) {
    State& state = this->state();
    state.changed("removing a picture from", [&] {
        const auto statement = state.prepared("DELETE FROM picture WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        exec_found(statement, "picture " + std::to_string(static_cast<std::int64_t>(id)));
    });
}

} // namespace inkturn
