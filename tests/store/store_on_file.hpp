#pragma once

#include "inkturn/store/change.hpp"
#include "temp_folder.hpp"

#include <string>
#include <type_traits>

namespace inkturn::test {

/// A store in a folder of its own; reopen() reads it from the file anew.
struct StoreOnFile {
    TempFolder folder;
    std::string file = folder.file("store");
    Store store = Store::open(file);

    void reopen() { store = Store::open(file); }

    /// Keeps what the work does to the store, and returns what it returns.
    template <typename Work>
    auto change(const Work& work) {
        Store::Change change(store);
        if constexpr (std::is_void_v<decltype(work(change))>) {
            work(change);
            change.commit();
        } else {
            auto result = work(change);
            change.commit();
            return result;
        }
    }
};

} // namespace inkturn::test
