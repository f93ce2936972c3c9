// Package screen judges a station as a whole with everybody seated: how it stands,
// what its moving parts come near, what its members and joints bear, and what it asks
// of the user's joints. One physics serves the search, the verdict and the report:
// a search remembers between stations (Memory), and a report is told every case (Watcher).
package screen
