#pragma once

#include "exchange/document/document.hpp"
#include "exchange/document/merge.hpp"
#include "inkturn/store/change.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace inkturn::test {

using Lines = std::vector<std::string>;

constexpr Day today{date::year{2026} / date::November / 25};

/// An empty store in memory.
inline Store empty_store() {
    return Store::open_to_read("/no such folder/store.inkturn");
}

/// Changes the store for good.
template <typename Work>
void change(Store& store, const Work& work) {
    Store::Change change(store);
    work(change);
    change.commit();
}

/// As its export.
inline std::string text_of(const Store& store) {
    return to_text(document_of(store));
}

/// As a command does it: stored only where there is no conflict.
inline Merge merge_into(Store& store, const Document& document, bool replace = false) {
    Store::Change change(store);
    Merge done = merge(change, document, {today, replace});
    if (done.conflicts.empty())
        change.commit();
    return done;
}

inline Merge merge_into(Store& store, const Store& other, bool replace = false) {
    return merge_into(store, document_of(other), replace);
}

inline Document read_text(const std::string& text) {
    std::istringstream in(text);
    return read_document(in, today);
}

} // namespace inkturn::test
