using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace FoamRules.Records.Migrations.Postgres
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
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    at_microseconds = table.Column<long>(type: "bigint", nullable: false),
                    actor = table.Column<string>(type: "text", nullable: false),
                    role = table.Column<int>(type: "integer", nullable: false),
                    identity = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<int>(type: "integer", nullable: false),
                    review_id = table.Column<string>(type: "text", nullable: false),
                    idempotency_key = table.Column<string>(type: "text", nullable: false),
                    request_digest = table.Column<string>(type: "text", nullable: false),
                    act = table.Column<byte[]>(type: "bytea", nullable: false),
                    previous_hash = table.Column<string>(type: "text", nullable: false),
                    hash = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_entries", x => x.sequence);
                });

            migrationBuilder.CreateTable(
                name: "reviews",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false),
                    first_sequence = table.Column<long>(type: "bigint", nullable: false),
                    version = table.Column<long>(type: "bigint", nullable: false),
                    summary = table.Column<byte[]>(type: "bytea", nullable: false),
                    search_text = table.Column<string>(type: "text", nullable: false),
                    work_date = table.Column<DateOnly>(type: "date", nullable: true),
                    disposition = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_reviews", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "rule_sets",
                columns: table => new
                {
                    digest = table.Column<string>(type: "text", nullable: false),
                    id = table.Column<string>(type: "text", nullable: true),
                    text = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_rule_sets", x => x.digest);
                });

            migrationBuilder.CreateTable(
                name: "findings",
                columns: table => new
                {
                    review_id = table.Column<string>(type: "text", nullable: false),
                    place = table.Column<int>(type: "integer", nullable: false),
                    requirement = table.Column<string>(type: "text", nullable: false),
                    severity = table.Column<int>(type: "integer", nullable: false),
                    released_until = table.Column<long>(type: "bigint", nullable: false)
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
            migrationBuilder.Sql("CREATE FUNCTION entries_stay() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'entries of the log are never changed or deleted'; END $$;");
            migrationBuilder.Sql("CREATE TRIGGER entries_stay BEFORE UPDATE OR DELETE ON entries FOR EACH ROW EXECUTE FUNCTION entries_stay();");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP FUNCTION entries_stay() CASCADE;");

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
