using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace FoamRules.Records.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "entries",
                columns: table => new
                {
                    sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    at_microseconds = table.Column<long>(type: "INTEGER", nullable: false),
                    actor = table.Column<string>(type: "TEXT", nullable: false),
                    role = table.Column<int>(type: "INTEGER", nullable: false),
                    identity = table.Column<int>(type: "INTEGER", nullable: false),
                    kind = table.Column<int>(type: "INTEGER", nullable: false),
                    review_id = table.Column<string>(type: "TEXT", nullable: false),
                    idempotency_key = table.Column<string>(type: "TEXT", nullable: false),
                    request_digest = table.Column<string>(type: "TEXT", nullable: false),
                    act = table.Column<byte[]>(type: "BLOB", nullable: false),
                    previous_hash = table.Column<string>(type: "TEXT", nullable: false),
                    hash = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_entries", x => x.sequence);
                });

            migrationBuilder.CreateTable(
                name: "reviews",
                columns: table => new
                {
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    first_sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false),
                    summary = table.Column<byte[]>(type: "BLOB", nullable: false),
                    search_text = table.Column<string>(type: "TEXT", nullable: false),
                    work_date = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    disposition = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_reviews", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "rule_sets",
                columns: table => new
                {
                    digest = table.Column<string>(type: "TEXT", nullable: false),
                    id = table.Column<string>(type: "TEXT", nullable: true),
                    text = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_rule_sets", x => x.digest);
                });

            migrationBuilder.CreateTable(
                name: "findings",
                columns: table => new
                {
                    review_id = table.Column<string>(type: "TEXT", nullable: false),
                    place = table.Column<int>(type: "INTEGER", nullable: false),
                    requirement = table.Column<string>(type: "TEXT", nullable: false),
                    severity = table.Column<int>(type: "INTEGER", nullable: false),
                    released_until = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_findings", x => new { x.review_id, x.place });
                    table.ForeignKey(
                        name: "FK_findings_reviews_review_id",
                        column: x => x.review_id,
                        principalTable: "reviews",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_entries_idempotency_key",
                table: "entries",
                column: "idempotency_key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_entries_review_id_sequence",
                table: "entries",
                columns: new[] { "review_id", "sequence" });

            migrationBuilder.CreateIndex(
                name: "IX_findings_requirement",
                table: "findings",
                column: "requirement");

            migrationBuilder.CreateIndex(
                name: "IX_reviews_first_sequence",
                table: "reviews",
                column: "first_sequence",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_reviews_work_date",
                table: "reviews",
                column: "work_date");

            // The log is only ever added to; a slip of the hand is stopped here, a forger is found by the hashes.
            migrationBuilder.Sql("CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT RAISE(ABORT, 'entries of the log are never changed'); END;");
            migrationBuilder.Sql("CREATE TRIGGER entries_are_kept BEFORE DELETE ON entries BEGIN SELECT RAISE(ABORT, 'entries of the log are never deleted'); END;");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "entries");

            migrationBuilder.DropTable(
                name: "findings");

            migrationBuilder.DropTable(
                name: "rule_sets");

            migrationBuilder.DropTable(
                name: "reviews");
        }
    }
}
