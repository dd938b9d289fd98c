//! What sets of flags have in common.

/// How a set of flags is read. Its one field holds the bits; its `ALL` has every flag, with its sentence, in the order
/// of the bits.
macro_rules! readable_flags {
    ($set:ident) => {
        impl $set {
            /// The members as bits.
            #[must_use]
            pub const fn bits(self) -> u32 {
                self.0
            }

            /// Whether every member of `other` is in this set.
            #[must_use]
            pub const fn contains(self, other: Self) -> bool {
                self.0 & other.0 == other.0
            }

            /// The sentences of the members, in the order of their bits.
            pub fn texts(self) -> impl Iterator<Item = &'static str> {
                Self::ALL.into_iter().filter(move |(member, _)| self.contains(*member)).map(|(_, text)| text)
            }
        }
    };
}

/// As [`readable_flags`], for a set that is made by adding to it.
macro_rules! flags {
    ($set:ident) => {
        $crate::flags::readable_flags!($set);

        impl $set {
            fn add(&mut self, member: Self, applies: bool) {
                if applies {
                    self.0 |= member.0;
                }
            }
        }
    };
}

pub(crate) use {flags, readable_flags};
