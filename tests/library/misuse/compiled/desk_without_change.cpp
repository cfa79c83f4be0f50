// refused: Desk
#include <inkturn/store/desk.hpp>

void put(inkturn::Store& store, inkturn::Script& script) {
#ifdef WRONG
    inkturn::Desk(store).add(script);
#else
    inkturn::Store::Change change(store);
    inkturn::Desk(change).add(script);
    change.commit();
#endif
}
