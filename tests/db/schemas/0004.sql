PRAGMA application_id = 1464552525;
PRAGMA user_version = 4;
BEGIN TRANSACTION;
CREATE TABLE acceptances (
	program_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	finding TEXT NOT NULL, 
	reason TEXT NOT NULL, 
	CONSTRAINT pk_acceptances PRIMARY KEY (program_id, position), 
	CONSTRAINT fk_acceptances_programs FOREIGN KEY(program_id) REFERENCES programs (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "acceptances" VALUES('ridge',0,'frequency/program//gluteals','one day is all there is');
CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL, CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num));
INSERT INTO "alembic_version" VALUES('0004');
CREATE TABLE bands (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	CONSTRAINT pk_bands PRIMARY KEY (client_id, position), 
	CONSTRAINT fk_bands_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "bands" VALUES('runa',0,'light');
INSERT INTO "bands" VALUES('runa',1,'medium');
INSERT INTO "bands" VALUES('runa',2,'heavy');
CREATE TABLE blocks (
	program_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	weeks INTEGER NOT NULL, 
	CONSTRAINT pk_blocks PRIMARY KEY (program_id, position), 
	CONSTRAINT ck_blocks_weeks CHECK (weeks >= 1), 
	CONSTRAINT fk_blocks_programs FOREIGN KEY(program_id) REFERENCES programs (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "blocks" VALUES('ridge',0,'Base',2);
CREATE TABLE check_in_pictures (
	client_id TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	position INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	CONSTRAINT pk_check_in_pictures PRIMARY KEY (client_id, on_date, position), 
	CONSTRAINT fk_check_in_pictures_check_ins FOREIGN KEY(client_id, on_date) REFERENCES check_ins (client_id, on_date) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "check_in_pictures" VALUES('runa','2026-01-11',0,'2026-01-11-front.jpg');
CREATE TABLE check_ins (
	client_id TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	mass_kg DOUBLE, 
	kcal DOUBLE, 
	sleep INTEGER, 
	soreness INTEGER, 
	mood INTEGER, 
	stress INTEGER, 
	adherence DOUBLE, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_check_ins PRIMARY KEY (client_id, on_date), 
	CONSTRAINT ck_check_ins_mass_kg CHECK (mass_kg > 0), 
	CONSTRAINT ck_check_ins_kcal CHECK (kcal >= 0), 
	CONSTRAINT ck_check_ins_adherence CHECK (adherence BETWEEN 0 AND 1), 
	CONSTRAINT fk_check_ins_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "check_ins" VALUES('runa','2026-01-11',74.5,2600.0,4,3,5,2,0.9,'Łukasz drove');
INSERT INTO "check_ins" VALUES('runa','2026-01-18',74.25,NULL,NULL,NULL,NULL,NULL,NULL,'');
CREATE TABLE client_emphasis (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	muscle TEXT NOT NULL, 
	CONSTRAINT pk_client_emphasis PRIMARY KEY (client_id, position), 
	CONSTRAINT fk_client_emphasis_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "client_emphasis" VALUES('runa',0,'gluteals');
INSERT INTO "client_emphasis" VALUES('runa',1,'quadriceps');
CREATE TABLE client_equipment (
	client_id TEXT NOT NULL, 
	equipment TEXT NOT NULL, 
	CONSTRAINT pk_client_equipment PRIMARY KEY (client_id, equipment), 
	CONSTRAINT fk_client_equipment_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "client_equipment" VALUES('runa','barbell');
INSERT INTO "client_equipment" VALUES('runa','body');
INSERT INTO "client_equipment" VALUES('runa','rack');
CREATE TABLE client_tags (
	client_id TEXT NOT NULL, 
	tag TEXT NOT NULL, 
	CONSTRAINT pk_client_tags PRIMARY KEY (client_id, tag), 
	CONSTRAINT fk_client_tags_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "client_tags" VALUES('runa','abroad');
INSERT INTO "client_tags" VALUES('runa','rope party');
CREATE TABLE clients (
	id TEXT NOT NULL, 
	version INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	born DATE, 
	sex TEXT, 
	height_cm DOUBLE, 
	mass_kg DOUBLE, 
	status TEXT NOT NULL, 
	goal TEXT NOT NULL, 
	trained_years DOUBLE NOT NULL, 
	team TEXT NOT NULL, 
	contact TEXT NOT NULL, 
	note TEXT NOT NULL, 
	kcal_now DOUBLE, 
	energy_goal TEXT, 
	activity_level DOUBLE NOT NULL, 
	units TEXT NOT NULL, 
	archived BOOLEAN NOT NULL, 
	bar_kg DOUBLE NOT NULL, 
	dumbbell_low_kg DOUBLE NOT NULL, 
	dumbbell_step_kg DOUBLE NOT NULL, 
	dumbbell_high_kg DOUBLE NOT NULL, 
	machine_step_kg DOUBLE NOT NULL, 
	cable_step_kg DOUBLE NOT NULL, 
	stage TEXT DEFAULT 'active' NOT NULL, 
	consent_on DATE, 
	consent_note TEXT DEFAULT '' NOT NULL, 
	keep_until DATE, 
	language TEXT DEFAULT '' NOT NULL, 
	paper TEXT DEFAULT '' NOT NULL, 
	energy_equation TEXT DEFAULT '' NOT NULL, 
	diary_version INTEGER DEFAULT '1' NOT NULL, 
	fat_free_kg DOUBLE CONSTRAINT ck_clients_fat_free_kg CHECK (fat_free_kg > 0), 
	CONSTRAINT pk_clients PRIMARY KEY (id), 
	CONSTRAINT ck_clients_name CHECK (name <> '')
);
INSERT INTO "clients" VALUES('runa',1,'Runa Estvik','1994-02-28','f',181.5,74.25,'novice','hypertrophy',0.0,'Ombrel Valley Mountain Rescue','by radio','Łukasz’s rope partner; “tall”',2640.0,'gain',1.7,'kg',0,20.0,2.0,2.0,40.0,5.0,2.5,'paused','2026-01-02','signed','2028-01-02','de','A5','mifflin',1,55.5);
CREATE TABLE coach (
	id INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	contact TEXT NOT NULL, 
	team TEXT NOT NULL, 
	CONSTRAINT pk_coach PRIMARY KEY (id), 
	CONSTRAINT ck_coach_one CHECK (id = 1)
);
INSERT INTO "coach" VALUES(1,'Tavi Hellmark','at the hut','Ombrel Valley Mountain Rescue');
CREATE TABLE days (
	program_id TEXT NOT NULL, 
	week_id INTEGER NOT NULL, 
	day INTEGER NOT NULL, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_days PRIMARY KEY (program_id, week_id, day), 
	CONSTRAINT fk_days_weeks FOREIGN KEY(program_id, week_id) REFERENCES weeks (program_id, id) ON DELETE CASCADE, 
	CONSTRAINT ck_days_day CHECK (day BETWEEN 0 AND 6)
)
 WITHOUT ROWID

;
INSERT INTO "days" VALUES('ridge',8,6,'rest');
CREATE TABLE dislikes (
	client_id TEXT NOT NULL, 
	exercise TEXT NOT NULL, 
	CONSTRAINT pk_dislikes PRIMARY KEY (client_id, exercise), 
	CONSTRAINT fk_dislikes_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "dislikes" VALUES('runa','burpee');
CREATE TABLE edits (
	id INTEGER NOT NULL, 
	client_id TEXT NOT NULL, 
	program_id TEXT, 
	at TEXT NOT NULL, 
	label TEXT NOT NULL, 
	CONSTRAINT pk_edits PRIMARY KEY (id), 
	CONSTRAINT fk_edits_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE, 
	CONSTRAINT fk_edits_programs FOREIGN KEY(program_id) REFERENCES programs (id) ON DELETE CASCADE
);
INSERT INTO "edits" VALUES(1,'runa','ridge','2026-11-29T21:50:27.817+00:00','Add the program');
CREATE TABLE free_times (
	client_id TEXT NOT NULL, 
	day INTEGER NOT NULL, 
	minutes INTEGER NOT NULL, 
	note TEXT NOT NULL, 
	place TEXT DEFAULT '' NOT NULL, 
	CONSTRAINT pk_free_times PRIMARY KEY (client_id, day), 
	CONSTRAINT ck_free_times_day CHECK (day BETWEEN 0 AND 6), 
	CONSTRAINT ck_free_times_minutes CHECK (minutes >= 0), 
	CONSTRAINT fk_free_times_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "free_times" VALUES('runa',0,75,'','');
INSERT INTO "free_times" VALUES('runa',2,0,'night watch','Hut');
CREATE TABLE girths (
	client_id TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	site TEXT NOT NULL, 
	cm DOUBLE NOT NULL, 
	CONSTRAINT pk_girths PRIMARY KEY (client_id, on_date, site), 
	CONSTRAINT fk_girths_check_ins FOREIGN KEY(client_id, on_date) REFERENCES check_ins (client_id, on_date) ON DELETE CASCADE, 
	CONSTRAINT ck_girths_cm CHECK (cm > 0)
)
 WITHOUT ROWID

;
INSERT INTO "girths" VALUES('runa','2026-01-11','thigh',59.0);
INSERT INTO "girths" VALUES('runa','2026-01-11','waist',78.5);
CREATE TABLE issues (
	sequence INTEGER NOT NULL, 
	id TEXT NOT NULL, 
	client_id TEXT NOT NULL, 
	program_id TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	program_name TEXT NOT NULL, 
	weeks INTEGER NOT NULL, 
	format INTEGER NOT NULL, 
	value TEXT NOT NULL, 
	CONSTRAINT pk_issues PRIMARY KEY (sequence), 
	CONSTRAINT uq_issues_id UNIQUE (id), 
	CONSTRAINT fk_issues_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
);
INSERT INTO "issues" VALUES(1,'issue-1','runa','ridge','2026-02-02','Ridge season',2,1,'{"client":{"activity_level":1.7,"archived":false,"born":"1994-02-28","consent":{"note":"signed","on":"2026-01-02"},"contact":"by radio","dislikes":["burpee"],"emphasis":["gluteals","quadriceps"],"energy_equation":"mifflin","energy_goal":"gain","equipment":["barbell","body","rack"],"fat_free_kg":55.5,"free":[{"minutes":75,"note":"","place":""},{"minutes":0,"note":"","place":""},{"minutes":0,"note":"night watch","place":"Hut"},{"minutes":0,"note":"","place":""},{"minutes":0,"note":"","place":""},{"minutes":0,"note":"","place":""},{"minutes":0,"note":"","place":""}],"goal":"hypertrophy","height_cm":181.5,"id":"runa","increments":{"bands":["light","medium","heavy"],"bar_kg":20.0,"cable_step_kg":2.5,"dumbbells_kg":[2.0,2.0,40.0],"machine_step_kg":5.0,"plates_kg":[20.0,10.0,2.5,0.5]},"kcal_now":2640.0,"keep_until":"2028-01-02","language":"de","likes":["step_up"],"limitations":[{"joint":"knee","motion":"flexion","note":"","past_degrees":90,"side":"both","since":"2026-03-01","until":null}],"mass_kg":74.25,"name":"Runa Estvik","note":"Łukasz’s rope partner; “tall”","paper":"A5","places":[{"equipment":["band","body"],"increments":{"bands":["red","blue"],"bar_kg":20.0,"cable_step_kg":2.5,"dumbbells_kg":[2.0,2.0,40.0],"machine_step_kg":5.0,"plates_kg":[5.0]},"name":"Hut"}],"refer":["kidney disease"],"screenings":[{"active":true,"cleared_on":null,"known_disease":false,"note":"","on":"2026-01-02","pregnant":false,"symptoms":false}],"sex":"f","stage":"paused","status":"novice","tags":["abroad","rope party"],"team":"Ombrel Valley Mountain Rescue","tests":[{"exercise":"back_squat","guessed_from":null,"load_kg":62.5,"note":"","on":"2026-01-03","reps":5,"rir":1.5},{"exercise":"pull_up","guessed_from":"lat_pulldown","load_kg":-12.5,"note":"","on":"2026-01-03","reps":6,"rir":0.0}],"trained_years":0.0,"units":"kg"},"coach":{"contact":"at the hut","name":"Tavi Hellmark","team":"Ombrel Valley Mountain Rescue"},"id":"issue-1","loads":[{"load_kg":52.5,"slot":4},{"load_kg":52.5,"slot":6}],"on":"2026-02-02","program":{"accepted":[{"finding":"frequency/program//gluteals","reason":"one day is all there is"}],"archived":false,"blocks":[{"name":"Base","weeks":2}],"curve":"textbook","emphasis":["gluteals"],"id":"ridge","name":"Ridge season","next_id":15,"start":"2026-11-23","weeks":[{"days":[{"note":"","sessions":[{"id":2,"note":"","slots":[{"effort":{"is":"rir","reps":2.0},"exercise":"back_squat","id":4,"load_kg":null,"note":"","pair":"","pinned":[],"prepared":["goblet_squat","leg_press"],"ramp":{"steps":[{"load_kg":null,"percent":50.0,"reps":5},{"load_kg":52.5,"percent":null,"reps":2}]},"reps":{"high":10,"low":8},"rest_s":120,"role":"core","sets":3,"strand":3,"tempo":""},{"effort":{"is":"rep_max","percent":95.0},"exercise":"leg_curl","id":6,"load_kg":null,"note":"","pair":"A","pinned":[],"prepared":[],"ramp":{"steps":[]},"reps":{"high":12,"low":12},"rest_s":120,"role":"assistance","sets":3,"strand":5,"tempo":""}],"strand":7,"title":"Mon 1","warmup":["band_walk",{"dose":{"reps":{"high":15,"low":12},"rounds":2},"exercise":"bridge"}]}]},{"note":"","sessions":[]},{"note":"","sessions":[]},{"note":"","sessions":[]},{"note":"","sessions":[]},{"note":"","sessions":[]},{"note":"","sessions":[]}],"id":1,"light":false,"note":""},{"days":[{"note":"","sessions":[{"id":9,"note":"","slots":[{"effort":{"is":"one_rm","percent":80.0},"exercise":"back_squat","id":10,"load_kg":60.0,"note":"","pair":"","pinned":["load","sets"],"prepared":[],"ramp":null,"reps":{"high":5,"low":5},"rest_s":120,"role":"assistance","sets":2,"strand":3,"tempo":""}],"strand":7,"title":"Mon 1","warmup":[]}]},{"note":"","sessions":[]},{"note":"","sessions":[]},{"note":"","sessions":[{"id":11,"note":"","slots":[{"effort":{"is":"rir","reps":2},"exercise":"hip_thrust","id":13,"load_kg":null,"note":"","pair":"","pinned":[],"prepared":[],"ramp":null,"reps":{"high":10,"low":10},"rest_s":120,"role":"assistance","sets":3,"strand":12,"tempo":""}],"strand":14,"title":"Thu 1","warmup":[]}]},{"note":"","sessions":[]},{"note":"","sessions":[]},{"note":"rest","sessions":[]}],"id":8,"light":true,"note":"nights"}]}}');
CREATE TABLE likes (
	client_id TEXT NOT NULL, 
	exercise TEXT NOT NULL, 
	CONSTRAINT pk_likes PRIMARY KEY (client_id, exercise), 
	CONSTRAINT fk_likes_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "likes" VALUES('runa','step_up');
CREATE TABLE limitations (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	joint TEXT NOT NULL, 
	motion TEXT NOT NULL, 
	side TEXT NOT NULL, 
	past_degrees INTEGER, 
	since DATE, 
	until DATE, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_limitations PRIMARY KEY (client_id, position), 
	CONSTRAINT fk_limitations_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "limitations" VALUES('runa',0,'knee','flexion','both',90,'2026-03-01',NULL,'');
CREATE TABLE own_exercises (
	"key" TEXT NOT NULL, 
	name TEXT NOT NULL, 
	retired BOOLEAN NOT NULL, 
	value TEXT NOT NULL, 
	CONSTRAINT pk_own_exercises PRIMARY KEY ("key")
);
INSERT INTO "own_exercises" VALUES('wall_step_over','Wall step-over',0,'{"activation":[],"aliases":[],"body_share":0.0,"cues":[],"easier":[],"equipment":["body"],"faults":[],"figure":"","harder":[],"key":"wall_step_over","load_kind":"body","multi_joint":true,"name":"Wall step-over","own":true,"pattern":"split_stance","plane":"sagittal","reaches":[],"rep_high":20,"rep_low":5,"rest_s":120,"set_up":[],"setup_s":60,"skill":1,"spinal_load":0,"stress":[["knee",1]],"tempo":"2-0-2-0","texts":[],"timed":false,"unilateral":false,"version":1,"warmup_for":[],"work":[{"fraction":1.0,"muscle":"gluteals"},{"fraction":0.5,"muscle":"quadriceps"}]}');
CREATE TABLE place_bands (
	client_id TEXT NOT NULL, 
	place INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	CONSTRAINT pk_place_bands PRIMARY KEY (client_id, place, position), 
	CONSTRAINT fk_place_bands_places FOREIGN KEY(client_id, place) REFERENCES places (client_id, position) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "place_bands" VALUES('runa',0,0,'red');
INSERT INTO "place_bands" VALUES('runa',0,1,'blue');
CREATE TABLE place_equipment (
	client_id TEXT NOT NULL, 
	place INTEGER NOT NULL, 
	equipment TEXT NOT NULL, 
	CONSTRAINT pk_place_equipment PRIMARY KEY (client_id, place, equipment), 
	CONSTRAINT fk_place_equipment_places FOREIGN KEY(client_id, place) REFERENCES places (client_id, position) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "place_equipment" VALUES('runa',0,'band');
INSERT INTO "place_equipment" VALUES('runa',0,'body');
CREATE TABLE place_plates (
	client_id TEXT NOT NULL, 
	place INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	size_kg DOUBLE NOT NULL, 
	CONSTRAINT pk_place_plates PRIMARY KEY (client_id, place, position), 
	CONSTRAINT fk_place_plates_places FOREIGN KEY(client_id, place) REFERENCES places (client_id, position) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "place_plates" VALUES('runa',0,0,5.0);
CREATE TABLE places (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	bar_kg DOUBLE NOT NULL, 
	dumbbell_low_kg DOUBLE NOT NULL, 
	dumbbell_step_kg DOUBLE NOT NULL, 
	dumbbell_high_kg DOUBLE NOT NULL, 
	machine_step_kg DOUBLE NOT NULL, 
	cable_step_kg DOUBLE NOT NULL, 
	CONSTRAINT pk_places PRIMARY KEY (client_id, position), 
	CONSTRAINT ck_places_name CHECK (name <> ''), 
	CONSTRAINT fk_places_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "places" VALUES('runa',0,'Hut',20.0,2.0,2.0,40.0,5.0,2.5);
CREATE TABLE plates (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	size_kg DOUBLE NOT NULL, 
	CONSTRAINT pk_plates PRIMARY KEY (client_id, position), 
	CONSTRAINT fk_plates_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "plates" VALUES('runa',0,20.0);
INSERT INTO "plates" VALUES('runa',1,10.0);
INSERT INTO "plates" VALUES('runa',2,2.5);
INSERT INTO "plates" VALUES('runa',3,0.5);
CREATE TABLE program_emphasis (
	program_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	muscle TEXT NOT NULL, 
	CONSTRAINT pk_program_emphasis PRIMARY KEY (program_id, position), 
	CONSTRAINT fk_program_emphasis_programs FOREIGN KEY(program_id) REFERENCES programs (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "program_emphasis" VALUES('ridge',0,'gluteals');
CREATE TABLE programs (
	id TEXT NOT NULL, 
	client_id TEXT NOT NULL, 
	version INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	start DATE NOT NULL, 
	curve TEXT NOT NULL, 
	next_id INTEGER NOT NULL, 
	archived BOOLEAN NOT NULL, 
	CONSTRAINT pk_programs PRIMARY KEY (id), 
	CONSTRAINT ck_programs_name CHECK (name <> ''), 
	CONSTRAINT ck_programs_next_id CHECK (next_id >= 1), 
	CONSTRAINT fk_programs_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
);
INSERT INTO "programs" VALUES('ridge','runa',1,'Ridge season','2026-11-23','textbook',15,0);
CREATE TABLE range_overrides (
	id INTEGER NOT NULL, 
	rule TEXT NOT NULL, 
	changed_by TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	why TEXT NOT NULL, 
	value TEXT NOT NULL, 
	CONSTRAINT pk_range_overrides PRIMARY KEY (id)
);
INSERT INTO "range_overrides" VALUES(1,'frequency','Tavi Hellmark','2026-02-01','one training day','{"by":"Tavi Hellmark","on":"2026-02-01","range":{"high":null,"low":1.0,"note":"","own":false,"reason":"","rule":"frequency","source":"common practice","unit":"sessions/week","weight":"outside","who":{"age_high":null,"age_low":18,"goal":[],"kind":[],"status":[],"week_high":null,"week_low":null}},"why":"one training day"}');
CREATE TABLE referrals (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	reason TEXT NOT NULL, 
	CONSTRAINT pk_referrals PRIMARY KEY (client_id, position), 
	CONSTRAINT fk_referrals_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "referrals" VALUES('runa',0,'kidney disease');
CREATE TABLE result_sets (
	client_id TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	program_id TEXT NOT NULL, 
	slot_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	load_kg DOUBLE NOT NULL, 
	reps INTEGER NOT NULL, 
	rir DOUBLE, 
	CONSTRAINT pk_result_sets PRIMARY KEY (client_id, on_date, program_id, slot_id, position), 
	CONSTRAINT fk_result_sets_results FOREIGN KEY(client_id, on_date, program_id, slot_id) REFERENCES results (client_id, on_date, program_id, slot_id) ON DELETE CASCADE, 
	CONSTRAINT ck_result_sets_reps CHECK (reps >= 0), 
	CONSTRAINT ck_result_sets_rir CHECK (rir >= 0)
)
 WITHOUT ROWID

;
INSERT INTO "result_sets" VALUES('runa','2026-01-05','ridge',4,0,52.5,10,2.0);
INSERT INTO "result_sets" VALUES('runa','2026-01-05','ridge',4,1,52.5,9,NULL);
INSERT INTO "result_sets" VALUES('runa','2026-01-05','ridge',4,2,-5.0,8,0.5);
INSERT INTO "result_sets" VALUES('runa','2026-01-05','ridge',6,0,52.5,10,2.0);
INSERT INTO "result_sets" VALUES('runa','2026-01-05','ridge',6,1,52.5,9,NULL);
INSERT INTO "result_sets" VALUES('runa','2026-01-05','ridge',6,2,-5.0,8,0.5);
CREATE TABLE results (
	client_id TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	program_id TEXT NOT NULL, 
	slot_id INTEGER NOT NULL, 
	exercise TEXT NOT NULL, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_results PRIMARY KEY (client_id, on_date, program_id, slot_id), 
	CONSTRAINT fk_results_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "results" VALUES('runa','2026-01-05','ridge',4,'back_squat','“light”');
INSERT INTO "results" VALUES('runa','2026-01-05','ridge',6,'leg_curl','“light”');
CREATE TABLE screenings (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	on_date DATE NOT NULL, 
	active BOOLEAN NOT NULL, 
	known_disease BOOLEAN NOT NULL, 
	symptoms BOOLEAN NOT NULL, 
	pregnant BOOLEAN NOT NULL, 
	cleared_on DATE, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_screenings PRIMARY KEY (client_id, position), 
	CONSTRAINT fk_screenings_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "screenings" VALUES('runa',0,'2026-01-02',1,0,0,0,NULL,'');
CREATE TABLE sessions (
	program_id TEXT NOT NULL, 
	id INTEGER NOT NULL, 
	week_id INTEGER NOT NULL, 
	day INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	strand INTEGER NOT NULL, 
	title TEXT NOT NULL, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_sessions PRIMARY KEY (program_id, id), 
	CONSTRAINT fk_sessions_weeks FOREIGN KEY(program_id, week_id) REFERENCES weeks (program_id, id) ON DELETE CASCADE, 
	CONSTRAINT ck_sessions_day CHECK (day BETWEEN 0 AND 6), 
	CONSTRAINT ck_sessions_position CHECK (position >= 0)
)
 WITHOUT ROWID

;
INSERT INTO "sessions" VALUES('ridge',2,1,0,0,7,'Mon 1','');
INSERT INTO "sessions" VALUES('ridge',9,8,0,0,7,'Mon 1','');
INSERT INTO "sessions" VALUES('ridge',11,8,3,0,14,'Thu 1','');
CREATE TABLE settings (
	"key" TEXT NOT NULL, 
	value TEXT NOT NULL, 
	CONSTRAINT pk_settings PRIMARY KEY ("key")
);
INSERT INTO "settings" VALUES('open','runa');
CREATE TABLE slots (
	program_id TEXT NOT NULL, 
	id INTEGER NOT NULL, 
	session_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	strand INTEGER NOT NULL, 
	exercise TEXT NOT NULL, 
	sets INTEGER NOT NULL, 
	reps_low INTEGER NOT NULL, 
	reps_high INTEGER NOT NULL, 
	effort_kind TEXT NOT NULL, 
	effort DOUBLE NOT NULL, 
	rest_s INTEGER NOT NULL, 
	tempo TEXT NOT NULL, 
	pair TEXT NOT NULL, 
	note TEXT NOT NULL, 
	role TEXT NOT NULL, 
	load_kg DOUBLE, 
	pinned TEXT NOT NULL, 
	prepared TEXT NOT NULL, 
	ramp TEXT, 
	CONSTRAINT pk_slots PRIMARY KEY (program_id, id), 
	CONSTRAINT fk_slots_sessions FOREIGN KEY(program_id, session_id) REFERENCES sessions (program_id, id) ON DELETE CASCADE, 
	CONSTRAINT ck_slots_position CHECK (position >= 0), 
	CONSTRAINT ck_slots_sets CHECK (sets >= 1), 
	CONSTRAINT ck_slots_reps CHECK (reps_low >= 1 AND reps_high >= reps_low), 
	CONSTRAINT ck_slots_effort_kind CHECK (effort_kind IN ('rir', 'one_rm', 'rep_max')), 
	CONSTRAINT ck_slots_effort CHECK (effort >= 0), 
	CONSTRAINT ck_slots_rest_s CHECK (rest_s >= 0), 
	CONSTRAINT ck_slots_load_kg CHECK (load_kg >= 0)
)
 WITHOUT ROWID

;
INSERT INTO "slots" VALUES('ridge',4,2,0,3,'back_squat',3,8,10,'rir',2.0,120,'','','','core',NULL,'','goblet_squat leg_press','50.0%x5 52.5kgx2');
INSERT INTO "slots" VALUES('ridge',6,2,1,5,'leg_curl',3,12,12,'rep_max',95.0,120,'','A','','assistance',NULL,'','','');
INSERT INTO "slots" VALUES('ridge',10,9,0,3,'back_squat',2,5,5,'one_rm',80.0,120,'','','','assistance',60.0,'load sets','',NULL);
INSERT INTO "slots" VALUES('ridge',13,11,0,12,'hip_thrust',3,10,10,'rir',2.0,120,'','','','assistance',NULL,'','',NULL);
CREATE TABLE strength_tests (
	client_id TEXT NOT NULL, 
	position INTEGER NOT NULL, 
	exercise TEXT NOT NULL, 
	on_date DATE NOT NULL, 
	load_kg DOUBLE NOT NULL, 
	reps INTEGER NOT NULL, 
	rir DOUBLE NOT NULL, 
	note TEXT NOT NULL, 
	guessed_from TEXT, 
	CONSTRAINT pk_strength_tests PRIMARY KEY (client_id, position), 
	CONSTRAINT ck_strength_tests_load_kg CHECK (load_kg >= -100), 
	CONSTRAINT ck_strength_tests_reps CHECK (reps >= 1), 
	CONSTRAINT ck_strength_tests_rir CHECK (rir >= 0), 
	CONSTRAINT fk_strength_tests_clients FOREIGN KEY(client_id) REFERENCES clients (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "strength_tests" VALUES('runa',0,'back_squat','2026-01-03',62.5,5,1.5,'',NULL);
INSERT INTO "strength_tests" VALUES('runa',1,'pull_up','2026-01-03',-12.5,6,0.0,'','lat_pulldown');
CREATE TABLE warmups (
	program_id TEXT NOT NULL, 
	session_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	exercise TEXT NOT NULL, 
	rounds INTEGER CONSTRAINT ck_warmups_rounds CHECK (rounds >= 1), 
	reps_low INTEGER CONSTRAINT ck_warmups_reps_low CHECK (reps_low >= 1), 
	reps_high INTEGER CONSTRAINT ck_warmups_reps_high CHECK (reps_high >= 1), 
	CONSTRAINT pk_warmups PRIMARY KEY (program_id, session_id, position), 
	CONSTRAINT fk_warmups_sessions FOREIGN KEY(program_id, session_id) REFERENCES sessions (program_id, id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "warmups" VALUES('ridge',2,0,'band_walk',NULL,NULL,NULL);
INSERT INTO "warmups" VALUES('ridge',2,1,'bridge',2,12,15);
CREATE TABLE weeks (
	program_id TEXT NOT NULL, 
	id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	light BOOLEAN NOT NULL, 
	note TEXT NOT NULL, 
	CONSTRAINT pk_weeks PRIMARY KEY (program_id, id), 
	CONSTRAINT ck_weeks_position CHECK (position >= 0), 
	CONSTRAINT fk_weeks_programs FOREIGN KEY(program_id) REFERENCES programs (id) ON DELETE CASCADE
)
 WITHOUT ROWID

;
INSERT INTO "weeks" VALUES('ridge',1,0,0,'');
INSERT INTO "weeks" VALUES('ridge',8,1,1,'nights');
CREATE INDEX ix_clients_name_id ON clients (name, id);
CREATE INDEX ix_programs_client_id ON programs (client_id);
CREATE INDEX ix_issues_program_id ON issues (program_id);
CREATE INDEX ix_issues_client_id ON issues (client_id);
CREATE INDEX ix_edits_program_id_id ON edits (program_id, id);
CREATE INDEX ix_edits_client_id ON edits (client_id);
CREATE INDEX ix_sessions_program_id_week_id ON sessions (program_id, week_id);
CREATE INDEX ix_slots_program_id_session_id ON slots (program_id, session_id);
COMMIT;
