#include "store/recording.hpp"

#include "store/state.hpp"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <cstring>
#include <limits>
#include <string>

namespace inkturn {
namespace {

void check_done(int code) {
    if (code != SQLITE_OK)
        throw SQLite::Exception(sqlite3_errstr(code), code);
}

int is_recorded(void* /*unused*/, const char* table) {
    return std::strcmp(table, "change") != 0 && std::strcmp(table, "calendar_event") != 0 &&
           std::strcmp(table, "checked") != 0 && std::strcmp(table, "collected_record") != 0;
}

struct ChangedRow {
    std::string table;
    int operation = 0; ///< SQLITE_INSERT, SQLITE_UPDATE or SQLITE_DELETE
};

ChangedRow row_at(sqlite3_changeset_iter* at) {
    const char* table = nullptr;
    int columns = 0;
    int operation = 0;
    int indirect = 0;
    check_done(sqlite3changeset_op(at, &table, &columns, &operation, &indirect));
    return {table, operation};
}

constexpr int code_of_candidate = 1; ///< the column

/// Text of a value that one of SQLite's functions reads from a row; empty where there is none.
template <typename Read>
std::string text_by(const Read& read, sqlite3_changeset_iter* at, int column) {
    sqlite3_value* value = nullptr;
    check_done(read(at, column, &value));
    const auto* text = value ? sqlite3_value_text(value) : nullptr;
    return text ? reinterpret_cast<const char*>(text) : "";
}

bool adds_candidate_on_file(int conflict, sqlite3_changeset_iter* at) {
    return conflict == SQLITE_CHANGESET_CONFLICT && row_at(at).table == "candidate" &&
           text_by(sqlite3changeset_conflict, at, code_of_candidate) ==
               text_by(sqlite3changeset_new, at, code_of_candidate);
}

int settle_conflict(void* /*unused*/, int conflict, sqlite3_changeset_iter* at) {
    return adds_candidate_on_file(conflict, at) ? SQLITE_CHANGESET_OMIT : SQLITE_CHANGESET_ABORT;
}

/// SQLite's functions take what they only read as if they wrote it.
void* readable(const Changeset& changeset) {
    return const_cast<void*>(changeset.bytes());
}

constexpr const char* placements = "placement";

// A changeset is, for each table, T, the number of its columns, the place of each in the key, its name, and
// its rows; numbers are big-endian (sqlite.org/session/changegroup.html and the comment at the head of
// sqlite3session.c).

std::string head_of_placements() {
    return std::string("T\3\1\2\0", 5) + placements + '\0'; // sitting, question, day
}

void append(std::string& row, std::int64_t number) {
    row += char{SQLITE_INTEGER};
    for (int shift = 56; shift >= 0; shift -= 8)
        row += static_cast<char>((static_cast<std::uint64_t>(number) >> shift) & 0xff);
}

/// Of under 128 bytes, whose length takes one: a question's name has at most four.
void append(std::string& row, const std::string& text) {
    row += char{SQLITE_TEXT};
    row += static_cast<char>(text.size());
    row += text;
}

} // namespace

void Changeset::Free::operator()(void* bytes) const {
    sqlite3_free(bytes);
}

Changeset::Changeset(void* bytes, int size) : bytes_(bytes), size_(size) {}

Changeset Changeset::of(const void* bytes, int size) {
    if (size == 0)
        return {};
    void* copy = sqlite3_malloc(size);
    if (!copy)
        check_done(SQLITE_NOMEM);
    std::memcpy(copy, bytes, static_cast<std::size_t>(size));
    return {copy, size};
}

Changeset Changeset::inverted() const {
    int size = 0;
    void* bytes = nullptr;
    check_done(sqlite3changeset_invert(size_, bytes_.get(), &size, &bytes));
    return {bytes, size};
}

Changeset Changeset::then(const Changeset& later) const {
    int size = 0;
    void* bytes = nullptr;
    check_done(sqlite3changeset_concat(size_, readable(*this), later.size_, readable(later), &size, &bytes));
    return {bytes, size};
}

Changeset Changeset::beside(const Changeset& other) const {
    void* both =
        sqlite3_malloc64(static_cast<sqlite3_uint64>(size_) + static_cast<sqlite3_uint64>(other.size_));
    if (!both)
        check_done(SQLITE_NOMEM);
    std::memcpy(both, bytes(), static_cast<std::size_t>(size_));
    std::memcpy(static_cast<char*>(both) + size_, other.bytes(), static_cast<std::size_t>(other.size_));
    return {both, size_ + other.size_};
}

bool Changeset::apply(SQLite::Database& database) const {
    const int code = sqlite3changeset_apply(database.getHandle(), size_, readable(*this), nullptr,
                                            settle_conflict, nullptr);
    if (code == SQLITE_ABORT)
        return false;
    check_done(code);
    return true;
}

void Changeset::visit(const std::function<void(sqlite3_changeset_iter*)>& visit) const {
    sqlite3_changeset_iter* at = nullptr;
    check_done(sqlite3changeset_start(&at, size_, readable(*this)));
    const std::unique_ptr<sqlite3_changeset_iter, int (*)(sqlite3_changeset_iter*)> owner(
        at, sqlite3changeset_finalize);
    while (sqlite3changeset_next(at) == SQLITE_ROW)
        visit(at);
}

void Changeset::visit_rows(const std::function<void(const std::string&, int)>& visit_row) const {
    visit([&](sqlite3_changeset_iter* at) {
        const ChangedRow row = row_at(at);
        visit_row(row.table, row.operation);
    });
}

bool Changeset::touches(const std::string& table) const {
    bool found = false;
    visit_rows([&](const std::string& changed, int) { found = found || changed == table; });
    return found;
}

bool Changeset::adds_or_removes_candidate(const std::string& code) const {
    bool found = false;
    visit([&](sqlite3_changeset_iter* at) {
        const ChangedRow row = row_at(at);
        if (found || row.table != "candidate" || row.operation == SQLITE_UPDATE)
            return;
        found =
            code == (row.operation == SQLITE_INSERT ? text_by(sqlite3changeset_new, at, code_of_candidate)
                                                    : text_by(sqlite3changeset_old, at, code_of_candidate));
    });
    return found;
}

void Recording::Delete::operator()(sqlite3_session* session) const {
    sqlite3session_delete(session);
}

Recording::Recording(SQLite::Database& database) {
    sqlite3_session* session = nullptr;
    check_done(sqlite3session_create(database.getHandle(), "main", &session));
    session_.reset(session);
    sqlite3session_table_filter(session, is_recorded, nullptr);
    check_done(sqlite3session_attach(session, nullptr));
}

Recording::Pause::Pause(Recording& recording) : session_(recording.session_.get()) {
    sqlite3session_enable(session_, 0);
}

Recording::Pause::~Pause() {
    sqlite3session_enable(session_, 1);
}

void Recording::add(const Placement& inserted) {
    if (inserted_.empty())
        inserted_ = head_of_placements();
    inserted_ += char{SQLITE_INSERT};
    inserted_ += '\0'; // not by a trigger
    append(inserted_, static_cast<std::int64_t>(inserted.sitting));
    append(inserted_, inserted.question);
    append(inserted_, std::int64_t{day_number(inserted.day)});
}

Changeset Recording::changeset() const {
    int size = 0;
    void* bytes = nullptr;
    check_done(sqlite3session_changeset(session_.get(), &size, &bytes));
    Changeset seen(bytes, size);
    if (inserted_.empty())
        return seen;
    if (inserted_.size() > static_cast<std::size_t>(std::numeric_limits<int>::max()))
        check_done(SQLITE_TOOBIG);
    const Changeset inserted = Changeset::of(inserted_.data(), static_cast<int>(inserted_.size()));
    return seen.touches(placements) ? inserted.then(seen) : seen.beside(inserted);
}

} // namespace inkturn
