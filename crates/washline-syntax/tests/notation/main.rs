//! The notation as it is read, from one line to whole files.

#[cfg(test)]
mod entries;
#[cfg(test)]
mod grammar;
#[cfg(test)]
mod ingredients;
#[cfg(test)]
mod others;
#[cfg(test)]
mod promises;
#[cfg(test)]
mod read;
#[cfg(test)]
mod refused;
#[cfg(test)]
mod steps;
#[cfg(test)]
mod values;
#[cfg(test)]
mod words;
